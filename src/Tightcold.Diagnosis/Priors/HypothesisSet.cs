using System.Collections.Immutable;
using Tightcold.Diagnosis.Faults;

namespace Tightcold.Diagnosis.Priors;

/// <summary>
/// The explanations that a car allows, with their odds before any reading, by why the reading was taken. The weights
/// are engineering assumptions from trade practice (docs/physics/diagnosis.md, prior table); they are not counts of a
/// workshop.
/// </summary>
public static class HypothesisSet
{
    private const double OtherShare = 0.03;

    /// <summary>All explanations for a car of which nobody said why it is read, “nothing wrong” first and “none of
    /// these” last.</summary>
    public static ImmutableArray<Hypothesis> For(CarKnowledge car) => For(car, ReadingReason.NotSaid);

    /// <summary>All explanations for a car, “nothing wrong” first and “none of these” last.</summary>
    /// <param name="car">What is known of it.</param>
    /// <param name="reason">Why it is read.</param>
    /// <param name="soundBefore">Odds of “nothing wrong” before any reading; null takes those of the reason.</param>
    public static ImmutableArray<Hypothesis> For(CarKnowledge car, ReadingReason reason, double? soundBefore = null)
    {
        ArgumentNullException.ThrowIfNull(car);
        var weights = Fault
            .All.Where(fault => fault.Fits(car))
            .ToDictionary(fault => fault, fault => fault.Weight * ReasonFactor(fault, reason));
        var list = weights.Select(pair => new Hypothesis(pair.Key.Key, [pair.Key], pair.Value)).ToList();
        list.AddRange(
            from first in weights.Keys
            from other in first.With
            where weights.ContainsKey(other.Fault)
            orderby other.Order
            select new Hypothesis(
                $"{first.Key}+{other.Fault.Key}",
                [first, other.Fault],
                other.Share * weights[first] * weights[other.Fault]
            )
        );

        var sound = soundBefore ?? Sound(reason);
        var sum = list.Sum(one => one.Prior);
        var faulty = (1 - sound - OtherShare) / sum;
        return
        [
            new(Hypothesis.NothingWrong, [], sound),
            .. list.Select(one => one with { Prior = one.Prior * faulty }),
            new(Hypothesis.NoneOfThese, [], OtherShare),
        ];
    }

    private static double ReasonFactor(Fault fault, ReadingReason reason)
    {
        foreach (var (why, factor) in fault.Because)
            if (why == reason)
                return factor;
        return 1;
    }

    /// <summary>Odds of “nothing wrong” before any reading.</summary>
    internal static double Sound(ReadingReason reason) =>
        reason switch
        {
            ReadingReason.BroughtInWarm => 0.08,
            ReadingReason.WarmAtIdle => 0.06,
            ReadingReason.WarmAfterTenMinutes => 0.06,
            ReadingReason.CheckUp => 0.85,
            ReadingReason.JustMendedAndWeighed => 0.85,
            ReadingReason.CameBackAfterAWeek => 0.10,
            _ => 0.485,
        };
}
