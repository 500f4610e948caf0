using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Books;
using Tightcold.App.Desk;
using Tightcold.Findings;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>The refrigerant ledger over all jobs, as a page and as a table for a spreadsheet.</summary>
internal static class BooksEndpoints
{
    public static void MapBooks(this IEndpointRouteBuilder site)
    {
        site.MapGet(
            Routes.Ledger,
            async (HttpContext http, LedgerBooks books, JobDesk desk, int? year, CancellationToken cancellation) =>
            {
                if (await books.SoonAsync(cancellation).ConfigureAwait(false) is not { } sight)
                    return Later(http, books);
                var (ledger, years) = sight.Of(year, Visit.Of(http).Reader.Zone);
                return Page.Show<LedgerPage>(
                    http,
                    (nameof(LedgerPage.Ledger), ledger),
                    (nameof(LedgerPage.Duty), RecordSheet.Duty(await desk.KitAsync(cancellation).ConfigureAwait(false))),
                    (nameof(LedgerPage.Years), years),
                    (nameof(LedgerPage.Year), year),
                    (nameof(LedgerPage.LeftOut), sight.LeftOut)
                );
            }
        );
        site.MapGet(
            Routes.LedgerCsv,
            async (HttpContext http, LedgerBooks books, int? year, CancellationToken cancellation) =>
                await books.SoonAsync(cancellation).ConfigureAwait(false) is { } sight
                    ? Results.File(
                        Encoding.UTF8.GetBytes(LedgerCsv.Write(sight.Of(year, Visit.Of(http).Reader.Zone).Ledger)),
                        "text/csv; charset=utf-8",
                        "tightcold-ledger.csv"
                    )
                    : Later(http, books)
        );
    }

    /// <summary>Many jobs are folded for the first time since the start: the page comes again by itself.</summary>
    private static IResult Later(HttpContext http, LedgerBooks books)
    {
        http.Response.Headers["Refresh"] = "2";
        return Page.Show<LedgerLaterPage>(http, (nameof(LedgerLaterPage.Done), books.Done));
    }
}
