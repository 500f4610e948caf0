using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Inference;

/// <summary>What the readings say: explanations with odds, most likely first.</summary>
public sealed class FaultOdds
{
    internal FaultOdds(Posterior posterior) => Posterior = posterior;

    public required ImmutableArray<Belief> Beliefs { get; init; }

    /// <summary>Charge in the circuit over all explanations, kg.</summary>
    public required Interval ChargeKg { get; init; }

    /// <summary>Charge over the label's that the last filling alone lets expect; null without one.</summary>
    public Interval? ChargeShareByHistory { get; init; }

    /// <summary>The label's charge, or the assumed one, kg.</summary>
    public required double LabelKg { get; init; }

    public required ImmutableArray<ReadingCheck> Readings { get; init; }

    /// <summary>Share of what cars of the leading explanation would show that is no likelier than what was read; below
    /// <see cref="FitsAbove"/> it does not explain the readings.</summary>
    public required double Fit { get; init; }

    /// <summary>Below this <see cref="Fit"/> the readings belong to no car of the leading explanation.</summary>
    public const double FitsAbove = 0.02;

    /// <summary>The reading that fits the leading explanation worst, where none explains the readings; else
    /// null.</summary>
    public ReadingCheck? DoesNotFit =>
        (Fit < FitsAbove || Leading.Hypothesis.IsNoneOfThese) && !Readings.IsEmpty
            ? Readings.MinBy(reading => reading.Tail)
            : null;

    /// <summary>True where too few of the tried cars carry the answer; the odds' errors then say how far to trust
    /// it.</summary>
    public required bool EvidenceUncertain { get; init; }

    /// <summary>Times the loop model was solved.</summary>
    public required int Solves { get; init; }

    /// <summary>Readings set aside because they cannot be, named.</summary>
    public required ImmutableArray<Contradiction> Contradictions { get; init; }

    public Belief Leading => Beliefs[0];

    /// <summary>Odds of each fault by itself, summed over every explanation that has it, and of “nothing wrong” and
    /// “none of these”; likeliest first. These are the odds that the study found calibrated; those of one explanation
    /// among alikes (a fault alone, or with a companion) run high between 0.6 and 0.95 (docs/validation-diagnosis.md).
    /// Two faults may be there at once, so these may sum to more than 1.</summary>
    public ImmutableArray<(Hypothesis Alone, double Odds, double OddsError)> ByFault()
    {
        var list = ImmutableArray.CreateBuilder<(Hypothesis Alone, double Odds, double OddsError)>();
        foreach (
            var alone in Beliefs.Select(belief => belief.Hypothesis).Where(hypothesis => hypothesis.Faults.Length <= 1)
        )
        {
            var with = With(alone).ToArray();
            list.Add(
                (
                    alone,
                    Math.Min(1, with.Sum(belief => belief.Odds)),
                    Math.Sqrt(with.Sum(belief => belief.OddsError * belief.OddsError))
                )
            );
        }

        return [.. list.OrderByDescending(line => line.Odds).ThenBy(line => line.Alone.Key, StringComparer.Ordinal)];
    }

    /// <summary>The same odds by the readings alone, with the history left out.</summary>
    public double WithoutHistory(Hypothesis alone)
    {
        ArgumentNullException.ThrowIfNull(alone);
        return Math.Min(1, With(alone).Sum(belief => belief.OddsWithoutHistory));
    }

    private IEnumerable<Belief> With(Hypothesis alone) =>
        Beliefs.Where(belief =>
            alone.Faults.Length == 0 ? belief.Hypothesis.Key == alone.Key : belief.Hypothesis.Has(alone.Faults[0])
        );

    /// <summary>Odds of an explanation by its key; 0 for one that is not weighed.</summary>
    public double OddsOf(string key) => Beliefs.FirstOrDefault(belief => belief.Hypothesis.Key == key)?.Odds ?? 0;

    /// <summary>Odds that the charge is below a value, kg.</summary>
    public double OddsChargeBelow(double kilograms) => Posterior.ChargeShareBelow(kilograms / LabelKg);

    internal Posterior Posterior { get; }
}
