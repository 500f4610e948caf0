using System.Globalization;
using Tightcold.App.Books;
using Tightcold.App.Desk;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Card;
using Tightcold.Tongues;

namespace Tightcold.Pages.Answering;

/// <summary>The job card, to look at and to keep, and the date of the next check for a calendar.</summary>
internal sealed class CardAnswers(JobDesk desk, FindingSource findings)
{
    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows("/jobs/{number:int}/card", ask => CardAsync(ask, asFile: false)),
            PageRow.Shows("/jobs/{number:int}/card.html", ask => CardAsync(ask, asFile: true)),
            PageRow.Shows("/jobs/{number:int}/next-check.ics", async ask =>
            {
                if (await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is not { } record)
                    return new Answer.NotHere();
                var picture = await desk.PictureAsync(record, ask.Cancellation).ConfigureAwait(false);
                return new Answer.Hands(
                    CheckCalendar.Of(picture),
                    "text/calendar; charset=utf-8",
                    CheckCalendar.FileName(picture)
                );
            }),
        ];

    /// <param name="ask">Which job's.</param>
    /// <param name="asFile">To be kept or sent: without the way back, under its own name.</param>
    private async Task<Answer> CardAsync(Ask ask, bool asFile)
    {
        if (await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is not { } record)
            return new Answer.NotHere();
        var reader = ask.Visit.Reader;
        // The customer's language, chosen on the card for this print alone; else the reader's.
        Say.Tongue = AllTongues.Named(ask.Word("language")) ?? ask.Visit.Tongue;
        var html = await CardPage
            .RenderAsync(
                await findings.OfAsync(desk, record, ask.Cancellation).ConfigureAwait(false),
                await desk.PhotosAsync(record, ask.Cancellation).ConfigureAwait(false),
                new(ask.Visit.System, Say.Tongue),
                reader.Local(reader.Now),
                asFile ? null : Routes.Job(record.Job),
                ask.Cancellation
            )
            .ConfigureAwait(false);
        return new Answer.Card(
            html,
            asFile ? string.Create(CultureInfo.InvariantCulture, $"job-{record.Job.Number}-card.html") : null
        );
    }
}
