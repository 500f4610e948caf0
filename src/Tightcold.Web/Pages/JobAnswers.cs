using Tightcold.App.Desk;
using Tightcold.Web.Asked;
using Tightcold.Web.Words;

namespace Tightcold.Web.Pages;

/// <summary>The pages of a job: now, a step of its walk, its journal.</summary>
internal sealed class JobAnswers(JobDesk desk, FindingSource findings)
{
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
