using Microsoft.Extensions.Time.Testing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;

namespace Tightcold.Storage.Tests;

/// <summary>The desk against a real data file.</summary>
public sealed class DeskOnDiskTests : IDisposable
{
    private static readonly DateTimeOffset Morning = new(2031, 7, 4, 9, 0, 0, TimeSpan.FromHours(-5));

    private readonly TemporaryFolder folder = new();
    private readonly FakeTimeProvider clock = new(Morning);

    public void Dispose() => folder.Dispose();

    private static CancellationToken Now => TestContext.Current.CancellationToken;

    private async Task<JobDesk> OpenAsync() => new(await JobStore.OpenAsync(folder.Path, Now), clock, new RandomIds());

    private static Dictionary<string, string> Fields(params (string Name, string Text)[] fields) =>
        fields.ToDictionary(field => field.Name, field => field.Text);

    [Fact]
    public async Task A_job_is_the_same_after_the_program_was_closed_and_opened_again()
    {
        var desk = await OpenAsync();
        var car = (
            await desk.AddCarAsync(
                Fields(("label", "blue estate"), ("refrigerant", "r134a"), ("label-charge", "1 lb 8 oz")),
                Now
            )
        ).Value!;
        await desk.AddContainerAsync(
            Fields(
                ("name", "A"),
                ("kind", "can"),
                ("refrigerant", "R-134a"),
                ("tare", "150 g"),
                ("gross-now", "490 g")
            ),
            null,
            Now
        );
        var job = (await desk.OpenJobAsync(car.Id, "blows warm", Now)).Value!;
        var added = await desk.AddEntryAsync(
            job.Number,
            EntryKinds.StandingReading,
            Fields(("low-side", "68 psig ± 2 psi"), ("ambient-temperature", "77 F")),
            null,
            "Ada",
            cancellation: Now
        );
        Assert.True(added.Taken, string.Join(' ', added.Problems.Select(problem => problem.Sentence)));

        var before = await desk.RecordAsync(job.Number, Now);
        var after = await (await OpenAsync()).RecordAsync(job.Number, Now);

        Assert.Equal(JobDesk.Export(before!), JobDesk.Export(after!));
        Assert.Equal(
            "68 psig ± 2 psi",
            ((Jobs.Fields.FieldValue.Quantity)after!.Journal.Standing[0].Fields["low-side"]!).AsTyped
        );
        Assert.Equal("A", Assert.Single(after.Kits[^1].Containers).Name);
    }

    [Fact]
    public async Task Sending_the_same_entry_twice_keeps_it_once()
    {
        var desk = await OpenAsync();
        var car = (await desk.AddCarAsync(Fields(("label", "blue estate"), ("refrigerant", "R-134a")), Now)).Value!;
        var job = (await desk.OpenJobAsync(car.Id, "blows warm", Now)).Value!;
        var id = Guid.NewGuid();
        var first = await desk.AddEntryAsync(
            job.Number,
            EntryKinds.Note,
            Fields(("text", "drier is old")),
            Morning,
            "Ada",
            id: id,
            cancellation: Now
        );
        var again = await desk.AddWrittenAsync(job.Number, first.Value!, Now);
        var other = await desk.AddWrittenAsync(job.Number, first.Value! with { Who = "Bo" }, Now);

        Assert.True(again.Taken);
        Assert.False(other.Taken);
        Assert.Single((await desk.RecordAsync(job.Number, Now))!.Journal.All);
    }
}
