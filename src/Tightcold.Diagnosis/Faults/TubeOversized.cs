using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Orifice tube too large, its seal gone, or none in it.</summary>
    public static Fault TubeOversized { get; } =
        new(20, "tube-oversized", "orifice tube too large or missing")
        {
            Weight = 0.005,
            Fits = HasTube,
            Severities = Even(0.20, 1),
            Apply = (loop, severity, _) => loop with { TubeOversize = severity },
            Signs = (look, _, odds) => look == Sign.SidesEqualAtOnce && First(odds, 0.30, 0.10),
            Mend = new(
                "Recover, pull the orifice tube: is it there, is it the right colour, is its seal whole?",
                "whether the right tube is in",
                60,
                "part-changed"
            ),
        };
}
