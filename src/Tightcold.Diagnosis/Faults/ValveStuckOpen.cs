using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    public static Fault ValveStuckOpen { get; } =
        new(5, "valve-stuck-open", "expansion valve stuck open")
        {
            Weight = 0.03,
            Fits = HasValve,
            Severities = Even(0.40, 1),
            Apply = (loop, severity, _) => loop with { ValveStuckOpen = severity },
            Signs = (look, at, odds) =>
                look switch
                {
                    Sign.SidesEqualAtOnce when at.Car.ValveStuckOpen > 0.5 => First(odds, 0.30, 0.10),
                    Sign.NeedlesSteady when !at.Cycles => Set(odds, 0.65, 0.30, 0.05),
                    _ => false,
                },
            Mend = TryTheBulb,
            Caution = "Liquid comes back to the compressor: do not run it long.",
            Asked = [new("valve-open", "expansion valve stuck open", 1)],
        };

    private static Mending TryTheBulb =>
        new(
            "Warm and cool the valve's bulb while watching the low side; a valve that does not follow is replaced",
            "whether the valve still regulates",
            20,
            "part-changed"
        );

    private static bool HasValve(CarKnowledge car) => car.Expansion is null or ExpansionKind.ExpansionValve;
}
