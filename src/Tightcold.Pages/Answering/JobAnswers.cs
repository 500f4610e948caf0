using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.App.Desk;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;
using Tightcold.Pages.Words;

namespace Tightcold.Pages.Answering;

/// <summary>The pages of a job: now, a step of its walk, its journal.</summary>
internal sealed class JobAnswers(JobDesk desk, FindingSource findings)
{
    private const string Here = "/jobs/{number:int}";

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Here, ask => NowAsync(ask.Number, ask)),
            PageRow.Shows(Here + "/steps/{slug}", ask => StepAsync(ask.Number, ask.Places["slug"], ask)),
            PageRow.Shows(Here + "/journal", ask => JournalAsync(ask.Number, ask)),
            PageRow.Shows(Here + "/news", NewsAsync),
            PageRow.Shows(Here + "/export", async ask =>
                await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is { } record
                    ? new Answer.Hands(
                        await desk.ExportAsync(record, ask.Cancellation).ConfigureAwait(false),
                        "application/json",
                        string.Create(CultureInfo.InvariantCulture, $"tightcold-job-{ask.Number}.json")
                    )
                    : new Answer.NotHere()
            ),
        ];

    /// <summary>How many entries the journal has, as its version: entries are only ever added. A page asks every few
    /// seconds. Counted in the store, so that several instances on one agree.</summary>
    private async Task<Answer> NewsAsync(Ask ask)
    {
        if (await desk.EntryCountAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is not { } count)
            return new Answer.NotHere();
        // A page that came without the odds of faults names its job, and hears when they are there.
        var weighed =
            ask.Id("weighing") is not { } job
            || await findings.IsWeighedAsync(desk, ask.Number, job, ask.Cancellation).ConfigureAwait(false);
        return new Answer.Tells(
            new JsonObject { ["entries"] = count, ["weighed"] = weighed },
            string.Create(CultureInfo.InvariantCulture, $"{count}{(weighed ? "" : "-weighing")}")
        );
    }

    public async Task<Answer> NowAsync(int number, Ask ask) =>
        await ModelAsync(number, ask).ConfigureAwait(false) is { } model
            ? Answer.Show<JobPage>((nameof(JobPage.Model), model))
            : new Answer.NotHere();

    public async Task<Answer> StepAsync(int number, string slug, Ask ask) =>
        StepWords.FromSlug(slug) is { } step && await ModelAsync(number, ask).ConfigureAwait(false) is { } model
            ? Answer.Show<StepPage>((nameof(StepPage.Model), model), (nameof(StepPage.Step), step))
            : new Answer.NotHere();

    public async Task<Answer> JournalAsync(int number, Ask ask) =>
        await desk.RecordAsync(number, ask.Cancellation).ConfigureAwait(false) is { } record
            ? Answer.Show<JournalPage>((nameof(JournalPage.Record), record))
            : new Answer.NotHere();

    private async Task<JobModel?> ModelAsync(int number, Ask ask)
    {
        if (await desk.RecordAsync(number, ask.Cancellation).ConfigureAwait(false) is not { } record)
            return null;
        return new(
            await findings.SoonAsync(desk, record, ask.Cancellation).ConfigureAwait(false),
            ask.Id("wrote") is { } id ? record.Journal.Find(id) : null
        );
    }
}
