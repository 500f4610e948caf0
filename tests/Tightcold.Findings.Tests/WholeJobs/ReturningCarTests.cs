using Tightcold.App.Demo;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Storage;

namespace Tightcold.Findings.Tests.WholeJobs;

/// <summary>The demo's car comes back a year later: what it read when it was sound counts, until a part that decides is
/// replaced.</summary>
public sealed class ReturningCarTests
{
    private static readonly TimeSpan Later = TimeSpan.FromDays(365);

    private static async Task<JobRecord> DemoAsync()
    {
        var folder = Directory.CreateTempSubdirectory("tightcold-back-").FullName;
        var store = await JobStore.OpenAsync(folder, TestContext.Current.CancellationToken);
        var number = await DemoScenario.PlayAsync(store, null, TestContext.Current.CancellationToken);
        return (await store.RecordAsync(number, TestContext.Current.CancellationToken))!;
    }

    /// <summary>A later job that begins with the same reading as the first ended with.</summary>
    private static JobRecord Back(JobRecord first, params Entry[] more)
    {
        var opened = first.Job.OpenedAt + Later;
        var read = first.Journal.Last(EntryKinds.RunningReading)!;
        return first with
        {
            Job = first.Job with { Id = AJob.Id(77), Number = 2, OpenedAt = opened },
            Journal = Journal
                .Create([
                    .. more,
                    read with
                    {
                        Id = AJob.Id(78),
                        ObservedAt = opened.AddMinutes(30),
                        WrittenAt = opened.AddMinutes(30),
                    },
                ])
                .Journal!,
            Chain = [],
        };
    }

    private static Entry Replaced(JobRecord first, string spot) =>
        new(
            AJob.Id(79),
            EntryKinds.PartChanged,
            first.Job.OpenedAt + Later + TimeSpan.FromMinutes(5),
            first.Job.OpenedAt + Later + TimeSpan.FromMinutes(5),
            "test",
            AJob.Bag(EntryKinds.Get(EntryKinds.PartChanged), ("spot", spot), ("part", "a new one"))
        );

    [Fact]
    public async Task It_is_judged_by_its_own_readings_first_and_says_so()
    {
        var first = await DemoAsync();
        var picture = new JobPicture(Back(first), [first]);
        var evidence = picture.Evidence!;
        var visit = Assert.Single(evidence.Evidence.Earlier);
        Assert.InRange(visit.SecondsBefore, 300 * 86_400.0, 400 * 86_400.0);
        Assert.Contains(evidence.Assumptions, said =>
            said.What.ToString().Contains("when it was sound", StringComparison.Ordinal)
        );
        var alone = new JobPicture(Back(first)).Machine!.Answer;
        var remembered = picture.Machine!.Answer;
        foreach (var (one, other) in alone.Readings.Zip(remembered.Readings).Where(pair => pair.First.Point == 0))
            Assert.True(
                other.Healthy.High - other.Healthy.Low < one.Healthy.High - one.Healthy.Low,
                $"{one.Channel}: no narrower by what it read a year ago"
            );
        Assert.True(remembered.OddsOf("nothing-wrong") > alone.OddsOf("nothing-wrong") - 0.02);
    }

    [Theory]
    [InlineData("condenser", false)]
    [InlineData("compressor body", false)]
    [InlineData("receiver-drier", true)]
    [InlineData("liquid line joint at condenser", true)]
    public async Task A_replaced_part_that_decides_what_the_gauges_show_ends_it(string spot, bool counts)
    {
        var first = await DemoAsync();
        var record = Back(first, Replaced(first, spot));
        var picture = new JobPicture(record, [first]);
        Assert.Equal(counts, picture.Evidence is { Evidence.Earlier.IsEmpty: false });
    }
}
