using Tightcold.Diagnosis.Measurement;
using static Tightcold.Diagnosis.Measurement.Channel;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Water mist on the condenser, gauges read again.</summary>
    public static TestKind MistOnCondenser { get; } =
        new(8, "mist-on-condenser", "Mist the condenser with water and read both gauges again", 5)
        {
            Known = [("aid", "water mist")],
            Plans = (test, now) =>
                now.Had(Aid.Mist) ? [] : [test.At(now.Bare with { Aid = Aid.Mist }, HighSide, LowSide, Vent)],
        };
}
