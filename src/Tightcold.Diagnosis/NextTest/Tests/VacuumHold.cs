using Tightcold.Diagnosis.Faults;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Recovered, evacuated and watched under vacuum: does it rise?</summary>
    public static TestKind VacuumHold { get; } =
        new(23, "vacuum-hold", "Have it recovered, pull it down and watch whether the vacuum holds", 90)
        {
            Money = 2,
            Entry = "recovery",
            TakesOut = true,
            WhenEmpty = true,
            Plans = (test, _) => [test.AtRest((cars, i, _) => new([], [], [Rises(cars, i), 1 - Rises(cars, i)]))],
        };

    // One bar draws in through the larger leaks only; hoses and water make a tight one rise now and then. Common
    // practice, no source.
    private static double Rises(SampledCars cars, int i) =>
        cars.Posterior.Runs[cars.Picks[i].H].Hypothesis.Has(Fault.Undercharge) ? 0.5 : 0.1;
}
