using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Stuck towards closed, or its bulb's charge lost.</summary>
    public static Fault ValveStuckClosed { get; } =
        new(6, "valve-stuck-closed", "expansion valve stuck towards closed")
        {
            Weight = 0.05,
            Fits = HasValve,
            Severities = AreaLeft(0.55, 0.995),
            Apply = (loop, severity, _) => loop with { ValveStuckClosed = severity },
            Signs = (look, at, odds) =>
                look switch
                {
                    Sign.CoolsSteadily => Set(odds, 0.79, 0.09, 0.07, 0.05),
                    Sign.NeedlesSteady when !at.Cycles => Set(odds, 0.65, 0.30, 0.05),
                    _ => Throttled(look, at.Car.ValveStuckClosed, odds),
                },
            Mend = TryTheBulb,
            Caution = HeldDown,
            Asked = [new("valve-shut", "expansion valve stuck shut or its charge lost", 0.9)],
        };
}
