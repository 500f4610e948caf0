using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Does the condenser's fan turn while the compressor runs?</summary>
    public static TestKind LookAtFan { get; } =
        new(15, "look-at-fan", "Look whether the condenser's fan turns while the compressor runs", 1)
        {
            Looks = Sign.FanRuns,
        };
}
