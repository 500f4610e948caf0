using Tightcold.Diagnosis.Measurement;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Water freezing in the throttle; comes and goes. Clear between its attacks.</summary>
    public static Fault MoistureIce { get; } =
        new(9, "moisture-ice", "water freezing in the expansion device")
        {
            Weight = 0.03,
            Because = [(WarmAfterTenMinutes, 15), (CameBackAfterAWeek, 1.5)],
            Severities = AreaLeft(0.60, 0.995),
            Always = (loop, severity) => loop with { MoistureIce = severity },
            Attack = (clear, severity) => clear with { ThrottleIced = severity },
            Signs = (look, _, odds) =>
                look switch
                {
                    Sign.CoolsSteadily => Set(odds, 0.04, 0.64, 0.29, 0.03),
                    Sign.ColdAgainAfterRest => Set(odds, 0.85),
                    Sign.NeedlesSteady => Set(odds, 0.22, 0.66, 0.12),
                    _ => false,
                },
            Mend = new(
                "Once it has turned warm: ten minutes off, then on again",
                "ice that comes and goes is water",
                15,
                Sign.ColdAgainAfterRest,
                "Recover, change the drier, evacuate long, fill by weight",
                opens: true
            ),
            Asked = [new("moisture", "water freezing in the throttle", 0.8)],
        };
}
