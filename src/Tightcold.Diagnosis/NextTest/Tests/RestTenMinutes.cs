using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Ten minutes off once it has turned warm, then on again.</summary>
    public static TestKind RestTenMinutes { get; } =
        new(18, "rest-ten-minutes", "Once it has turned warm: ten minutes off, then on again", 12)
        {
            Looks = Sign.ColdAgainAfterRest,
        };
}
