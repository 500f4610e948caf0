using static Tightcold.Diagnosis.Measurement.Channel;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    public static TestKind ClampDischargeLine { get; } =
        new(3, "clamp-discharge-line", "Clamp the thermometer on the discharge line", 4)
        {
            Reads = DischargeLine,
            Begins = "discharge-line-temperature",
        };
}
