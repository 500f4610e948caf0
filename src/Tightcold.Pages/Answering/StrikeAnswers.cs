using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;

namespace Tightcold.Pages.Answering;

/// <summary>Striking an entry without replacing it.</summary>
internal sealed class StrikeAnswers(JobDesk desk, IIdSource ids)
{
    private const string Here = "/jobs/{number:int}/entries/{id:guid}/strike";

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Here, async ask =>
                await EntryAnswers.FindAsync(desk, ask).ConfigureAwait(false) is var (record, entry)
                    ? Form(record, entry, ids.NextId(ask.Now))
                    : new Answer.NotHere()
            ),
            PageRow.Takes(Here, StrikeAsync),
        ];

    private async Task<Answer> StrikeAsync(Ask ask)
    {
        if (await EntryAnswers.FindAsync(desk, ask).ConfigureAwait(false) is not var (record, entry))
            return new Answer.NotHere();
        var reason = ask.Sent.GetValueOrDefault("reason", "");
        var own = ask.SentId ?? ids.NextId(ask.Now);
        if (record.Journal.IsStruck(entry.Id) || record.Journal.Find(own) is not null)
            return Answer.Go(Routes.Entry(record.Job, entry.Id));
        var outcome = await desk.AddEntryAsync(
                record.Job.Number,
                EntryKinds.Struck,
                new Dictionary<string, string>(),
                null,
                EntryAnswers.Who(record, null),
                entry.Id,
                reason,
                own,
                ask.Cancellation
            )
            .ConfigureAwait(false);
        return outcome.Taken
            ? Answer.Go(Routes.Job(record.Job))
            : Form(record, entry, own, reason, outcome.Problems);
    }

    private static Answer Form(
        JobRecord record,
        Entry entry,
        Guid id,
        string reason = "",
        IReadOnlyList<InputProblem>? problems = null
    ) =>
        Answer.Show<StrikePage>(
            problems is not null,
            (nameof(StrikePage.Record), record),
            (nameof(StrikePage.Entry), entry),
            (nameof(StrikePage.Id), id),
            (nameof(StrikePage.Reason), reason),
            (nameof(StrikePage.Problems), problems ?? [])
        );
}
