using Tightcold.Diagnosis.Measurement;
using static Tightcold.Diagnosis.Measurement.Channel;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>A shop fan before the condenser, gauges read again.</summary>
    public static TestKind FanOnCondenser { get; } =
        new(7, "fan-on-condenser", "Blow a shop fan at the condenser and read both gauges again", 5)
        {
            Known = [("aid", "fan on condenser")],
            Plans = (test, now) =>
                now.Had(Aid.Fan) ? [] : [test.At(now.Bare with { Aid = Aid.Fan }, HighSide, LowSide, Vent)],
        };
}
