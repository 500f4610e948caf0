using Tightcold.Diagnosis.Measurement;
using Tightcold.Procedures.Substances;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>The compressor does not turn though its clutch is given voltage.</summary>
    public static Fault ClutchDead { get; } =
        new(12, "clutch-dead", "compressor not turning")
        {
            Weight = 0.02,
            Because = [(WarmAtIdle, 0.1), (WarmAfterTenMinutes, 0.2), (CheckUp, 0.3)],
            Apply = (loop, _, _) => loop with { ClutchSlip = 1 },
            HowBad = Nothing,
            Signs = (look, _, odds) =>
                look switch
                {
                    Sign.VoltageAtClutch => Set(odds, 0.95),
                    Sign.BeltRight => Set(odds, 0.12, 0.06, 0.82),
                    _ => false,
                },
            Mend = LookAtTheBelt,
            Caution = ClearOfTheBelt,
            Danger = Danger.Hurts,
        };
}
