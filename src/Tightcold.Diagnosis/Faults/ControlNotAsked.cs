using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>A variable compressor whose control valve is not commanded; the valve itself may be well.</summary>
    public static Fault ControlNotAsked { get; } =
        new(19, "control-not-asked", "compressor's control valve not commanded")
        {
            Weight = 0.02,
            Fits = Varies,
            Severities = Even(0.50, 1),
            Apply = (loop, severity, _) => loop with { ControlStuckLow = severity },
            Signs = (look, _, odds) =>
                look switch
                {
                    Sign.ValveAskedFor => Set(odds, 0.05),
                    Sign.SensorAgreesWithGauge => Set(odds, 0.65),
                    _ => false,
                },
            Mend = new(
                "Read the control valve's duty and what forbids it with a scan tool",
                "whether the valve is asked at all",
                15,
                Sign.ValveAskedFor,
                "Find what forbids it: fault codes, pressure sensor, evaporator sensor, wiring to the valve"
            ),
        };
}
