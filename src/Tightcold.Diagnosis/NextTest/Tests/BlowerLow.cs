using static Tightcold.Diagnosis.Measurement.Channel;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Blower at low, gauges and vent read again.</summary>
    public static TestKind BlowerLow { get; } =
        new(10, "blower-low", "Blower to low, then gauges and vent again", 5)
        {
            Known = [("blower", "low"), ("aid", "none")],
            Plans = (test, now) =>
                now.Evidence.Points.All(point => point.BlowerShare > LowBlower + 0.1)
                    ? [test.At(now.Bare with { BlowerShare = LowBlower }, LowSide, Vent, HighSide)]
                    : [],
        };

    private const double LowBlower = 0.4;
}
