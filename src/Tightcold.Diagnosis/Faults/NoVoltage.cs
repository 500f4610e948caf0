using Tightcold.Diagnosis.Measurement;
using Tightcold.Procedures.Substances;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>The clutch gets no voltage: fuse, relay, wire, pressure switch or sensor, or the engine computer
    /// forbids it.</summary>
    public static Fault NoVoltage { get; } =
        new(18, "no-voltage", "no voltage at the compressor's clutch")
        {
            Weight = 0.03,
            Because = [(WarmAtIdle, 0.1), (WarmAfterTenMinutes, 0.2), (CheckUp, 0.3)],
            Apply = (loop, _, _) => loop with { ClutchSlip = 1 },
            HowBad = Nothing,
            // Without voltage no plate is pulled in: beside looking wrong once, as for any compressor that stands still,
            // that needs voltage that came and went. Assumed.
            PulledIn = 0.15,
            Signs = (look, _, odds) =>
                look switch
                {
                    Sign.CoolsSteadily => Set(odds, 0.60, 0.32, 0.06, 0.02),
                    Sign.SensorAgreesWithGauge => Set(odds, 0.65),
                    Sign.VoltageAtClutch => Set(odds, 0.04),
                    Sign.BeltRight => Set(odds, 0.15, 0.02, 0.83),
                    _ => false,
                },
            Mend = new(
                "Measure voltage at the clutch's plug",
                "whether wiring, sensor or engine computer keep it off, or the clutch itself",
                10,
                Sign.VoltageAtClutch,
                "Follow the voltage back: fuse, relay, wire, pressure switch or sensor, fault codes; bridge nothing"
            ),
            Caution =
                "A bridged pressure switch lets the compressor run empty or past its relief: bridge none. "
                + "An electric compressor carries high voltage: leave it to the trained.",
            Danger = Danger.Life,
        };
}
