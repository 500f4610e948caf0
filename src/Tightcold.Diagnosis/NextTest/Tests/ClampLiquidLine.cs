using static Tightcold.Diagnosis.Measurement.Channel;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    public static TestKind ClampLiquidLine { get; } =
        new(2, "clamp-liquid-line", "Clamp the thermometer on the liquid line", 4)
        {
            Reads = LiquidLine,
            Begins = "liquid-line-temperature",
        };
}
