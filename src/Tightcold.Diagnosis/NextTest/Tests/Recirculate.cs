using Tightcold.Diagnosis.Measurement;
using static Tightcold.Diagnosis.Measurement.Channel;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Windows shut, air recirculated, gauges and vent read again.</summary>
    public static TestKind Recirculate { get; } =
        new(12, "recirculate", "Windows shut, recirculated air, then gauges and vent again", 10)
        {
            Known = [("air-source", "recirculated"), ("doors", "closed"), ("aid", "none")],
            Plans = (test, now) =>
                now.Evidence.Points.All(point => point.FreshShare > 0.5)
                    ? [test.At(Shut(now.Bare), LowSide, HighSide, Vent)]
                    : [],
        };

    private static OperatingPoint Shut(OperatingPoint point) =>
        point with
        {
            FreshShare = 0.05,
            IntakeSaid = true,
            CabinK = point.AmbientK - 5,
            CabinSigmaK = 2,
            Doors = DoorsAre.Closed,
        };
}
