using Tightcold.Studies.Leaks;

namespace Tightcold.Diagnosis.Tests.Leaks;

/// <summary>Short and long runs of the study that `tools/Tightcold.Studies leaks` prints.</summary>
public sealed class SearchStudyTests
{
    private static void Holds(SearchStudy study, double slack)
    {
        Assert.True(study.SpotError < 0.02 + slack, $"{study}");
        Assert.InRange(study.RateCoverage, 0.82 - slack, 1);
        Assert.True(Math.Abs(study.SaidRemains - study.WasRemains) < 0.05 + slack, $"{study}");
        Assert.True(study.Advised.AllFound >= study.Practice.AllFound, $"{study}");
        // Why one stops too early: after the first find a car may leak elsewhere.
        Assert.True(study.RemainsAfterFirstFound > 0.12 - slack, $"{study}");
    }

    [Fact]
    public void In_invented_searches_the_odds_mean_what_they_say_and_the_advised_order_finds_more() =>
        Holds(SearchStudy.Run(24, 4), 0.1);

    /// <summary>Two thousand cars, minutes of work: run by name, not with the rest.</summary>
    [Theory(Explicit = true)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public async Task The_long_study_in_four_parts(int seed)
    {
        var study = await Task.Run(() => SearchStudy.Run(500, (ulong)seed), TestContext.Current.CancellationToken);
        TestContext.Current.TestOutputHelper!.WriteLine($"{study} {string.Join(' ', study.SpotBins)}");
        Holds(study, 0);
    }
}
