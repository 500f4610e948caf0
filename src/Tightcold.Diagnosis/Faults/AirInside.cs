using Tightcold.Diagnosis.Measurement;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Air or nitrogen in the circuit.</summary>
    public static Fault AirInside { get; } =
        new(2, "air-inside", "air in the system")
        {
            Weight = 0.05,
            Because = [(WarmAtIdle, 1.5), (JustMendedAndWeighed, 1.5), (CameBackAfterAWeek, 1.5)],
            // Air that came by careless filling brings water.
            With = [new(12, "moisture-ice", 3)],
            Severities = Even(0.5e5, 3.5e5),
            Apply = (loop, severity, _) => loop with { AirExcessPa = severity },
            HowBad = (low, high) => Phrase.Of($"{Pressures(low, high)} of air at rest"),
            Signs = (look, at, odds) =>
                look switch
                {
                    Sign.CoolsSteadily => Set(odds, 0.65, 0.06, 0.08, 0.21),
                    Sign.SidesEqualAtOnce => First(odds, 0.05, 0.60),
                    Sign.LowPipeCold => Set(odds, 0.35),
                    Sign.NeedlesSteady when !at.Cycles => Set(odds, 0.50, 0.08, 0.42),
                    Sign.FoamAtLowerRevs => Set(odds, 0.85),
                    _ => false,
                },
            Mend = new(
                "Have it recovered, evacuate long and fill by weight with fresh refrigerant",
                "whether the pressures come down",
                60,
                "recovery"
            ),
            Caution = NearItsRelief,
            Danger = Danger.Life,
            Asked = [new("air", "air in the circuit (1 is 3 bar when parked)", 0.3, Worst: 3e5)],
        };
}
