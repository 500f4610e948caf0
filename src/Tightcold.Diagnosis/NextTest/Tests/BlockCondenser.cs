using Tightcold.Diagnosis.Measurement;
using static Tightcold.Diagnosis.Measurement.Channel;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Cardboard before the condenser, gauges watched. It is taken off by 20 bar gauge, 21 absolute; it needs room
    /// below that to begin with.</summary>
    public static TestKind BlockCondenser { get; } =
        new(
            11,
            "block-condenser",
            "Cardboard before the condenser while watching the high side; off again by 20 bar (290 psi)",
            6
        )
        {
            Known = [("aid", "blocked airflow")],
            Plans = (test, now) =>
                !now.Had(Aid.Blocked) && now.Last.Readings.Any(one => one is { Channel: HighSide, Value: < 15e5 })
                    ? [test.At(now.Bare with { Aid = Aid.Blocked }, HighSide, LowSide) with { StopsAbovePa = 21e5 }]
                    : [],
        };
}
