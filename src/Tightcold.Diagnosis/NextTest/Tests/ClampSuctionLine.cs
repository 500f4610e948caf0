using static Tightcold.Diagnosis.Measurement.Channel;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    public static TestKind ClampSuctionLine { get; } =
        new(1, "clamp-suction-line", "Clamp the thermometer on the suction line", 4)
        {
            Reads = SuctionLine,
            Begins = "suction-line-temperature",
        };
}
