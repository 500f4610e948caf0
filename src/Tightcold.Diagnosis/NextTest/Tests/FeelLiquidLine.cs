using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>The hand along the liquid line, through the drier to the throttle.</summary>
    public static TestKind FeelLiquidLine { get; } =
        new(17, "feel-liquid-line", "Feel along the liquid line, through the drier to the expansion device", 2)
        {
            Looks = Sign.NoStepAlongLiquidLine,
        };
}
