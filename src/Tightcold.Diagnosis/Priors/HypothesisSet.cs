using System.Collections.Immutable;
using Tightcold.Loop.Designs;

namespace Tightcold.Diagnosis.Priors;

/// <summary>
/// The explanations that a car allows, with their odds before any reading, by why the reading was taken. The weights
/// are engineering assumptions from trade practice (docs/physics/diagnosis.md, prior table); they are not counts of a
/// workshop.
/// </summary>
public static class HypothesisSet
{
    private const double OtherShare = 0.03;

    // Two faults at once are a little rarer than chance would have it: a car is brought in when the first one shows.
    private const double PairShare = 0.6;

    private static readonly (Fault Fault, double Weight)[] Single =
    [
        (Fault.Undercharge, 0.45),
        (Fault.Overcharge, 0.07),
        (Fault.AirInside, 0.05),
        (Fault.CondenserAir, 0.09),
        (Fault.EvaporatorAir, 0.04),
        (Fault.ValveStuckOpen, 0.03),
        (Fault.ValveStuckClosed, 0.05),
        (Fault.TubePlugged, 0.04),
        (Fault.LineRestricted, 0.03),
        (Fault.MoistureIce, 0.03),
        (Fault.CompressorWorn, 0.05),
        (Fault.ClutchSlips, 0.02),
        (Fault.ClutchDead, 0.02),
        (Fault.ControlStuckLow, 0.03),
        (Fault.ControlStuckHigh, 0.02),
        (Fault.BlendDoorLeaks, 0.05),
        (Fault.OilExcess, 0.02),
        (Fault.SwitchMisset, 0.02),
        (Fault.NoVoltage, 0.03),
        (Fault.ControlNotAsked, 0.02),
        (Fault.TubeOversized, 0.005),
        (Fault.WrongRefrigerant, 0.01),
    ];

    // Undercharge goes with anything; air comes with careless filling and brings water; a weak fan hides behind air; a
    // compressor that dies plugs what comes after it.
    private static readonly (Fault First, Fault Second, double Share)[] Pairs =
    [
        (Fault.Undercharge, Fault.CondenserAir, PairShare),
        (Fault.Undercharge, Fault.CompressorWorn, PairShare),
        (Fault.Undercharge, Fault.BlendDoorLeaks, PairShare),
        (Fault.Undercharge, Fault.EvaporatorAir, PairShare),
        (Fault.Undercharge, Fault.AirInside, PairShare),
        (Fault.Undercharge, Fault.ValveStuckClosed, PairShare),
        (Fault.Undercharge, Fault.TubePlugged, PairShare),
        (Fault.CondenserAir, Fault.AirInside, PairShare),
        (Fault.Overcharge, Fault.AirInside, PairShare),
        (Fault.CondenserAir, Fault.Overcharge, PairShare),
        (Fault.CompressorWorn, Fault.TubePlugged, 2),
        (Fault.AirInside, Fault.MoistureIce, 3),
    ];

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
        var weights = Single
            .Where(fault => Fits(fault.Fault, car))
            .ToDictionary(pair => pair.Fault, pair => pair.Weight * ReasonWeights.Factor(reason, pair.Fault));
        var list = weights.Select(pair => new Hypothesis(KeyOf(pair.Key), [pair.Key], pair.Value)).ToList();
        foreach (var (first, second, share) in Pairs)
        {
            if (weights.TryGetValue(first, out var a) && weights.TryGetValue(second, out var b))
                list.Add(new($"{KeyOf(first)}+{KeyOf(second)}", [first, second], share * a * b));
        }

        var sound = soundBefore ?? ReasonWeights.Sound(reason);
        var sum = list.Sum(one => one.Prior);
        var faulty = (1 - sound - OtherShare) / sum;
        return
        [
            new(Hypothesis.NothingWrong, [], sound),
            .. list.Select(one => one with { Prior = one.Prior * faulty }),
            new(Hypothesis.NoneOfThese, [], OtherShare),
        ];
    }

    /// <summary>Whether a fault can be in this car at all.</summary>
    public static bool Fits(Fault fault, CarKnowledge car)
    {
        ArgumentNullException.ThrowIfNull(car);
        return fault switch
        {
            Fault.ValveStuckOpen or Fault.ValveStuckClosed => car.Expansion is null or ExpansionKind.ExpansionValve,
            Fault.TubePlugged or Fault.TubeOversized => car.Expansion is null or ExpansionKind.OrificeTube,
            Fault.ControlStuckLow or Fault.ControlNotAsked or Fault.ControlStuckHigh => car.Compressor
                is null
                    or CompressorKind.Variable
                    or CompressorKind.Electric,
            Fault.ClutchSlips => car.Compressor is not CompressorKind.Electric,
            Fault.WrongRefrigerant => car.Refrigerant is "R134a" or "R1234yf",
            Fault.SwitchMisset => car.Compressor
                is null
                    or CompressorKind.FixedCycling
                    or CompressorKind.FixedWithFinThermostat,
            _ => true,
        };
    }

    /// <summary>The fault's stable name, kebab-case.</summary>
    public static string KeyOf(Fault fault) =>
        string.Concat(
            fault
                .ToString()
                .Select(
                    (letter, index) =>
                        char.IsUpper(letter) && index > 0
                            ? "-" + char.ToLowerInvariant(letter)
                            : char.ToLowerInvariant(letter).ToString()
                )
        );
}
