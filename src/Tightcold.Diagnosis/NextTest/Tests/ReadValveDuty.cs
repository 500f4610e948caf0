using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>What the engine computer asks of the compressor's control valve, by a scan tool.</summary>
    public static TestKind ReadValveDuty { get; } =
        new(20, "read-valve-duty", "Read the control valve's duty with a scan tool", 6)
        {
            Looks = Sign.ValveAskedFor,
            Runs = false,
        };
}
