using Tightcold.Diagnosis.Measurement;
using Tightcold.Loop.Designs;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    public static Fault ClutchSlips { get; } =
        new(11, "clutch-slips", "slipping clutch or belt")
        {
            Weight = 0.02,
            Because = [(WarmAfterTenMinutes, 4)],
            Fits = car => car.Compressor is not CompressorKind.Electric,
            Severities = MostlySmall(0.25, 0.85),
            Apply = (loop, severity, _) => loop with { ClutchSlip = severity },
            HowBad = (low, high) => Phrase.Of($"{Shares(low, high)} of the turns lost"),
            Signs = (look, _, odds) =>
                look switch
                {
                    Sign.CoolsSteadily => Set(odds, 0.40, 0.26, 0.24, 0.10),
                    Sign.ColdAgainAfterRest => Set(odds, 0.40),
                    Sign.BeltRight => Set(odds, 0.25, 0.70, 0.05),
                    _ => false,
                },
            Mend = LookAtTheBelt,
            Caution = ClearOfTheBelt,
            Danger = Danger.Hurts,
            Asked = [new("slipping-clutch", "clutch or belt slipping; 1 does not pull", 0.5)],
        };

    private const string ClearOfTheBelt =
        "Hands and cables clear of the belt; a slipping clutch is hot enough to burn.";

    private static Mending LookAtTheBelt =>
        new(
            "Look at belt and clutch: does the hub turn, does the belt slip?",
            "electrical or mechanical",
            10,
            Sign.BeltRight,
            "Set right what it is: belt, gap, coil or compressor; then read both gauges again"
        );
}
