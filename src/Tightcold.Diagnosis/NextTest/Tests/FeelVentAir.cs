using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>The hand before the vents at full blower.</summary>
    public static TestKind FeelVentAir { get; } =
        new(21, "feel-vent-air", "Feel the air at the vents at full blower", 1) { Looks = Sign.AirStrong };
}
