using System.Collections.Immutable;
using Tightcold.Loop.Designs;

namespace Tightcold.Diagnosis.Priors;

/// <summary>
/// The explanations that a car allows, with their odds before any reading, for a car that comes in as “cools poorly”.
/// The weights are engineering assumptions from trade practice (docs/physics/diagnosis.md, prior table); they are not
/// counts of a workshop.
/// </summary>
public static class HypothesisSet
{
    private const double HealthyWeight = 0.10;
    private const double OtherWeight = 0.03;

    // Two faults at once are a little rarer than chance would have it: a car is brought in when the first one shows.
    private const double PairShare = 0.6;

    private static readonly (Fault Fault, double Weight)[] Single =
    [
        (Fault.Undercharge, 0.45), (Fault.Overcharge, 0.07), (Fault.AirInside, 0.05), (Fault.CondenserAir, 0.08),
        (Fault.EvaporatorAir, 0.04), (Fault.ValveStuckOpen, 0.02), (Fault.ValveStuckClosed, 0.05), (Fault.TubePlugged, 0.04),
        (Fault.LineRestricted, 0.02), (Fault.MoistureIce, 0.01), (Fault.CompressorWorn, 0.04), (Fault.ClutchSlips, 0.02),
        (Fault.ClutchDead, 0.04), (Fault.ControlStuckLow, 0.05), (Fault.ControlStuckHigh, 0.02), (Fault.BlendDoorLeaks, 0.05),
        (Fault.OilExcess, 0.02), (Fault.SwitchMisset, 0.02),
    ];

    // Undercharge goes with anything; air comes with careless filling; a weak fan hides behind air.
    private static readonly (Fault First, Fault Second)[] Pairs =
    [
        (Fault.Undercharge, Fault.CondenserAir), (Fault.Undercharge, Fault.CompressorWorn), (Fault.Undercharge, Fault.BlendDoorLeaks),
        (Fault.Undercharge, Fault.EvaporatorAir), (Fault.Undercharge, Fault.AirInside), (Fault.Undercharge, Fault.ValveStuckClosed),
        (Fault.Undercharge, Fault.TubePlugged), (Fault.CondenserAir, Fault.AirInside), (Fault.Overcharge, Fault.AirInside),
        (Fault.CondenserAir, Fault.Overcharge),
    ];

    /// <summary>All explanations for a car, “nothing wrong” first and “none of these” last.</summary>
    public static ImmutableArray<Hypothesis> For(CarKnowledge car)
    {
        ArgumentNullException.ThrowIfNull(car);
        var weights = Single.Where(fault => Fits(fault.Fault, car)).ToDictionary(pair => pair.Fault, pair => pair.Weight);
        var list = new List<Hypothesis> { new(Hypothesis.NothingWrong, [], HealthyWeight) };
        list.AddRange(weights.Select(pair => new Hypothesis(KeyOf(pair.Key), [pair.Key], pair.Value)));
        foreach (var (first, second) in Pairs)
        {
            if (weights.TryGetValue(first, out var a) && weights.TryGetValue(second, out var b))
                list.Add(new($"{KeyOf(first)}+{KeyOf(second)}", [first, second], PairShare * a * b));
        }

        list.Add(new(Hypothesis.NoneOfThese, [], OtherWeight));
        var sum = list.Sum(one => one.Prior);
        return [.. list.Select(one => one with { Prior = one.Prior / sum })];
    }

    /// <summary>Whether a fault can be in this car at all.</summary>
    public static bool Fits(Fault fault, CarKnowledge car)
    {
        ArgumentNullException.ThrowIfNull(car);
        return fault switch
        {
            Fault.ValveStuckOpen or Fault.ValveStuckClosed => car.Expansion is null or ExpansionKind.ExpansionValve,
            Fault.TubePlugged => car.Expansion is null or ExpansionKind.OrificeTube,
            Fault.ControlStuckLow or Fault.ControlStuckHigh => car.Compressor is null or CompressorKind.Variable or CompressorKind.Electric,
            Fault.ClutchSlips => car.Compressor is not CompressorKind.Electric,
            Fault.SwitchMisset => car.Compressor is null or CompressorKind.FixedCycling or CompressorKind.FixedWithFinThermostat,
            _ => true,
        };
    }

    /// <summary>The fault's stable name, kebab-case.</summary>
    public static string KeyOf(Fault fault) =>
        string.Concat(fault.ToString().Select((letter, index) => char.IsUpper(letter) && index > 0 ? "-" + char.ToLowerInvariant(letter) : char.ToLowerInvariant(letter).ToString()));
}
