using Tightcold.App.Books;
using Tightcold.App.Desk;
using Tightcold.Findings;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;

namespace Tightcold.Pages.Answering;

/// <summary>The refrigerant ledger over all jobs, as a page and as a table for a spreadsheet.</summary>
internal sealed class BooksAnswers(JobDesk desk, LedgerBooks books)
{
    /// <summary>Until the page asks again how far the books are.</summary>
    private const int AgainSeconds = 2;

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Routes.Ledger, async ask =>
            {
                if (await books.SoonAsync(ask.Cancellation).ConfigureAwait(false) is not { } sight)
                    return Later();
                var year = ask.Count("year");
                var (ledger, years) = sight.Of(year, ask.Visit.Reader.Zone);
                var kit = await desk.KitAsync(ask.Cancellation).ConfigureAwait(false);
                return Answer.Show<LedgerPage>(
                    (nameof(LedgerPage.Ledger), ledger),
                    (nameof(LedgerPage.Duty), RecordSheet.Duty(kit)),
                    (nameof(LedgerPage.Years), years),
                    (nameof(LedgerPage.Year), year),
                    (nameof(LedgerPage.LeftOut), sight.LeftOut)
                );
            }),
            PageRow.Shows(Routes.LedgerCsv, async ask =>
                await books.SoonAsync(ask.Cancellation).ConfigureAwait(false) is { } sight
                    ? new Answer.Hands(
                        LedgerCsv.Write(sight.Of(ask.Count("year"), ask.Visit.Reader.Zone).Ledger),
                        "text/csv; charset=utf-8",
                        "tightcold-ledger.csv"
                    )
                    : Later()
            ),
        ];

    /// <summary>Many jobs are folded for the first time since the start: the page comes again by itself.</summary>
    private Answer.Shows Later() =>
        new(typeof(LedgerLaterPage), [(nameof(LedgerLaterPage.Done), books.Done)], Refused: false)
        {
            AgainSeconds = AgainSeconds,
        };
}
