using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>A test lamp at the clutch's plug.</summary>
    public static TestKind MeasureClutchVoltage { get; } =
        new(19, "measure-clutch-voltage", "Measure voltage at the clutch's plug", 5)
        {
            Looks = Sign.VoltageAtClutch,
            Runs = false,
        };
}
