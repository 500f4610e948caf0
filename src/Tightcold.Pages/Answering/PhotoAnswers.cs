using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Photos;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;

namespace Tightcold.Pages.Answering;

/// <summary>An entry with its photos: one is sent, all are shown. What comes in is judged by its bytes, and goes out as
/// a picture and nothing else.</summary>
internal sealed class PhotoAnswers(JobDesk desk)
{
    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows("/jobs/{number:int}/entries/{id:guid}", async ask =>
                await EntryAnswers.FindAsync(desk, ask).ConfigureAwait(false) is var (record, entry)
                    ? await ShowAsync(ask, record, entry, null).ConfigureAwait(false)
                    : new Answer.NotHere()
            ),
            PageRow.Shows("/jobs/{number:int}/photos/{id:guid}", async ask =>
                await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is { } record
                && await desk.PhotoAsync(record, ask.Which, ask.Cancellation).ConfigureAwait(false) is { } photo
                    ? new Answer.Picture(photo.Body.ToArray(), Photo.MediaType)
                    : new Answer.NotHere()
            ),
            PageRow.Takes("/jobs/{number:int}/entries/{id:guid}/photos", KeepAsync),
        ];

    private async Task<Answer> KeepAsync(Ask ask)
    {
        if (await EntryAnswers.FindAsync(desk, ask).ConfigureAwait(false) is not var (record, entry))
            return new Answer.NotHere();
        var bytes = ask.Files.GetValueOrDefault("photo", []);
        var outcome = await desk.AddPhotoAsync(record, entry.Id, bytes, ask.SentId, ask.Cancellation)
            .ConfigureAwait(false);
        return outcome.Taken
            ? Answer.Go(Routes.Entry(record.Job, entry.Id) + "#photos")
            : await ShowAsync(ask, record, entry, outcome.Problems).ConfigureAwait(false);
    }

    private async Task<Answer> ShowAsync(
        Ask ask,
        JobRecord record,
        Entry entry,
        IReadOnlyList<InputProblem>? problems
    ) =>
        Answer.Show<EntryPage>(
            problems is not null,
            (nameof(EntryPage.Record), record),
            (nameof(EntryPage.Entry), entry),
            (
                nameof(EntryPage.Photos),
                (await desk.PhotoListAsync(record, ask.Cancellation).ConfigureAwait(false))
                    .Where(photo => photo.Entry == entry.Id)
                    .Select(photo => photo.Photo)
                    .ToArray()
            ),
            (nameof(EntryPage.PhotoProblems), problems ?? [])
        );
}
