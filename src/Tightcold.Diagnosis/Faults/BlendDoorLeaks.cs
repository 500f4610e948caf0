using Tightcold.Diagnosis.Measurement;
using Tightcold.Quantities;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Warm air from the heater core gets into the vents.</summary>
    public static Fault BlendDoorLeaks { get; } =
        new(15, "blend-door-leaks", "warm air from the heater (blend door, heater valve)")
        {
            Weight = 0.05,
            Because = [(WarmAfterTenMinutes, 0.2)],
            Severities = Even(0.10, 0.70),
            Apply = (loop, severity, _) => loop with { BlendDoorLeak = severity },
            HowBad = (low, high) => Phrase.Of($"{Shares(low, high)} of the vent air goes through the heater"),
            Signs = (look, _, odds) =>
                look switch
                {
                    Sign.HosePinchedColder => Set(odds, 0.92),
                    Sign.VentsAlike => Set(odds, 0.60),
                    Sign.NoHotAirAtInlet => Set(odds, 0.85),
                    _ => false,
                },
            Mend = new(
                "Pinch off the heater hose or shut its valve and read the vent again",
                "whether the heater warms the air",
                10,
                Sign.HosePinchedColder,
                "Set right the blend door, its motor or the heater valve; the circuit stays shut"
            ),
            Asked = [new("blend-door", "warm air past the blend door", 0.2)],
        };
}
