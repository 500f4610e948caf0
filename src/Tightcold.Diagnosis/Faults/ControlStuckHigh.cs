using Tightcold.Diagnosis.Measurement;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Stroke or speed held large.</summary>
    public static Fault ControlStuckHigh { get; } =
        new(14, "control-stuck-high", "compressor control stuck at full stroke")
        {
            Weight = 0.02,
            Because = [(WarmAfterTenMinutes, 4)],
            Fits = Varies,
            Severities = Even(0.50, 1),
            Apply = (loop, severity, _) => loop with { ControlStuckHigh = severity },
            Signs = IcesUp,
            Mend = ReadTheDuty,
            Asked = [new("control-high", "stroke or speed stuck high", 1)],
        };

    /// <summary>The coil ices over, and thaws in a rest.</summary>
    private static bool IcesUp(Sign look, Looked at, Span<double> odds) =>
        look switch
        {
            Sign.CoolsSteadily => Set(odds, 0.50, 0.22, 0.23, 0.05),
            Sign.ColdAgainAfterRest => Set(odds, 0.50),
            _ => false,
        };
}
