using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tests.Leaks;

/// <summary>A short run of the study that the program prints in full with “tightcold study leaks”.</summary>
public sealed class SearchStudyTests
{
    [Fact]
    public void In_invented_searches_the_odds_mean_what_they_say_and_the_advised_order_finds_more()
    {
        var study = SearchStudy.Run(30, 4);
        Assert.True(study.SpotError < 0.06, $"{study}");
        Assert.InRange(study.RateCoverage, 0.75, 1);
        Assert.True(Math.Abs(study.SaidRemains - study.WasRemains) < 0.15, $"{study}");
        Assert.True(study.Advised.AllFound > study.Practice.AllFound, $"{study}");
        // Why one stops too early: after the first find many cars still leak elsewhere.
        Assert.True(study.RemainsAfterFirstFound > 0.2, $"{study}");
    }
}
