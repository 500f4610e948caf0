using static Tightcold.Diagnosis.Measurement.Channel;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    public static TestKind ReadVent { get; } =
        new(0, "read-vent", "Thermometer in the centre vent", 3) { Reads = Vent, Begins = "vent-temperature" };
}
