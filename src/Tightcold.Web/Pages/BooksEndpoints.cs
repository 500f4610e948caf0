using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Books;
using Tightcold.App.Desk;
using Tightcold.Findings;
using Tightcold.Picture;
using Tightcold.Picture.Books;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>The refrigerant ledger over all jobs, as a page and as a table for a spreadsheet.</summary>
internal static class BooksEndpoints
{
    public static void MapBooks(this IEndpointRouteBuilder site)
    {
        site.MapGet(Routes.Ledger, async (HttpContext http, JobDesk desk, int? year, CancellationToken cancellation) =>
        {
            var records = Pictures(await desk.RecordsAsync(cancellation: cancellation).ConfigureAwait(false));
            var zone = Visit.Of(http).Reader.Zone;
            int[] years =
            [
                .. RefrigerantLedger
                    .Of(records)
                    .Lines.Select(line => TimeZoneInfo.ConvertTime(line.Date, zone).Year)
                    .Distinct()
                    .OrderDescending(),
            ];
            return Page.Show<LedgerPage>(
                http,
                (nameof(LedgerPage.Ledger), Of(records, year, zone)),
                (nameof(LedgerPage.Duty), RecordSheet.Duty(await desk.KitAsync(cancellation).ConfigureAwait(false))),
                (nameof(LedgerPage.Years), years),
                (nameof(LedgerPage.Year), year)
            );
        });
        site.MapGet(
            Routes.LedgerCsv,
            async (HttpContext http, JobDesk desk, int? year, CancellationToken cancellation) =>
                Results.File(
                    Encoding.UTF8.GetBytes(
                        LedgerCsv.Write(
                            Of(
                                Pictures(await desk.RecordsAsync(cancellation: cancellation).ConfigureAwait(false)),
                                year,
                                Visit.Of(http).Reader.Zone
                            )
                        )
                    ),
                    "text/csv; charset=utf-8",
                    "tightcold-ledger.csv"
                )
        );
    }

    private static JobPicture[] Pictures(IReadOnlyList<Jobs.Journals.JobRecord> records) =>
        [.. records.Select(record => new JobPicture(record))];

    private static RefrigerantLedger Of(JobPicture[] records, int? year, TimeZoneInfo zone)
    {
        if (year is not (>= 1 and < 9999))
            return RefrigerantLedger.Of(records);
        DateTimeOffset Start(int of) => new(new DateTime(of, 1, 1), zone.GetUtcOffset(new DateTime(of, 1, 1)));
        return year is > 1 and var chosen
            ? RefrigerantLedger.Of(records, Start(chosen), Start(chosen + 1))
            : RefrigerantLedger.Of(records);
    }
}
