using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Both gauges in the minute after switching off.</summary>
    public static TestKind WatchAfterStop { get; } =
        new(16, "watch-after-stop", "Switch off and watch both gauges for a minute", 3)
        {
            Looks = Sign.SidesEqualAtOnce,
        };
}
