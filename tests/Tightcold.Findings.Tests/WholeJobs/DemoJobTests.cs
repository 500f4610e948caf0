using Tightcold.App.Demo;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Storage;

namespace Tightcold.Findings.Tests.WholeJobs;

/// <summary>The demo job through the real desk and database: what the findings say against what is true in the
/// invented car (docs/demo.md).</summary>
public sealed class DemoJobTests
{
    private static async Task<JobRecord> PlayAsync()
    {
        var folder = Directory.CreateTempSubdirectory("tightcold-demo-").FullName;
        var store = await JobStore.OpenAsync(folder, TestContext.Current.CancellationToken);
        var number = await DemoScenario.PlayAsync(store, null, TestContext.Current.CancellationToken);
        Assert.Equal(number, await DemoScenario.PlayAsync(store, null, TestContext.Current.CancellationToken));
        return (await store.RecordAsync(number, TestContext.Current.CancellationToken))!;
    }

    [Fact]
    public async Task The_findings_of_the_demo_hold_what_is_true_in_the_invented_car()
    {
        var record = await PlayAsync();
        var findings = Walk.Of(record).ToDictionary(finding => finding.Step);
        var left = findings[Step.StandingPressure].Estimates.Single(estimate => estimate.Key == "mass-left");
        Assert.InRange(0.064, left.Low!.Value, left.High!.Value);
        Assert.Equal(Judgement.Good, findings[Step.Hold].Judgement);
        Assert.Empty(findings[Step.Hold].Missing);
        Assert.Equal(Judgement.Good, findings[Step.ProveCold].Judgement);
        Assert.Equal(Judgement.Good, findings[Step.WeighIn].Judgement);
        Assert.Contains(
            "2 leaks found, mended",
            findings[Step.LeakSearch].Verdict.ToString(),
            StringComparison.Ordinal
        );
        var inside = findings[Step.WeighIn].Estimates.Single(estimate => estimate.Key == "in-system");
        Assert.InRange(0.5505, inside.Low!.Value, inside.High!.Value);
    }

    [Theory]
    [InlineData(2, Step.StandingPressure)]
    [InlineData(10, Step.LeakSearch)]
    [InlineData(45, Step.Recover)]
    [InlineData(95, Step.Mend)]
    [InlineData(110, Step.PumpDown)]
    [InlineData(285, Step.WeighIn)]
    [InlineData(384, Step.Ledger)]
    public async Task Coming_back_during_the_day_the_step_that_matters_now_is_named(double minute, Step expected)
    {
        var record = await PlayAsync();
        record = record with
        {
            Journal = Journal
                .Create(record.Journal.All.Where(entry => entry.ObservedAt <= DemoScenario.Start.AddMinutes(minute)))
                .Journal!,
        };
        Assert.Equal(expected, new JobPicture(record).Now.Step);
    }

    [Fact]
    public async Task After_weighing_in_the_odds_of_faults_know_the_charge_and_no_longer_blame_it()
    {
        var wrong = Walk.Of(await PlayAsync()).Single(finding => finding.Step == Step.WhatIsWrong);
        var charge = wrong.Estimates.Single(estimate => estimate.Key == "charge");
        Assert.InRange(0.5505, charge.Low!.Value, charge.High!.Value);
        Assert.True(charge.High - charge.Low < 0.08, $"{charge}");
        Assert.DoesNotContain("too little refrigerant", wrong.Verdict.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task On_the_morning_of_the_demo_the_gauges_point_to_too_little_refrigerant()
    {
        var record = await PlayAsync();
        var morning = Journal
            .Create(record.Journal.All.Where(entry => entry.ObservedAt < DemoScenario.Start.AddMinutes(30)))
            .Journal!;
        var picture = new JobPicture(record with { Journal = morning });
        Assert.Equal(Judgement.Bad, Walk.Of(Step.RunningPressures, picture).Judgement);
        Assert.Contains(
            "too little refrigerant",
            Walk.Of(Step.WhatIsWrong, picture).Verdict.ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task What_was_weighed_a_moment_ago_changes_nothing_of_what_is_told_now()
    {
        var record = await PlayAsync();
        JobPicture? before = null;
        // The day as it came, and at its end each entry taken back again.
        var journals = Enumerable
            .Range(1, record.Journal.All.Length)
            .Select(count => record.Journal.All.Take(count))
            .Concat(record.Journal.All.Select(left => record.Journal.All.Where(entry => entry.Id != left.Id)));
        foreach (var entries in journals)
        {
            var then = record with { Journal = Journal.Create(entries).Journal! };
            var picture = new JobPicture(then, before: before, atAGlance: true);
            var anew = new JobPicture(then, atAGlance: true);
            Assert.Equal(Told(anew), Told(picture));
            Assert.Equal(anew.Leaks.Belief.Next, picture.Leaks.Belief.Next);
            before = picture;
        }
    }

    private static IEnumerable<string> Told(JobPicture picture) =>
        Walk.Of(picture)
            .SelectMany(finding =>
                finding
                    .Estimates.Select(estimate => $"{estimate}")
                    .Prepend($"{finding.Step}: {finding.Verdict} {finding.Why}")
            );
}
