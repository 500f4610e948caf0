using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Books;
using Tightcold.App.Desk;
using Tightcold.Web.Card;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

internal static class CardEndpoints
{
    public static void MapCard(this IEndpointRouteBuilder site)
    {
        site.MapGet(
            "/jobs/{number:int}/card",
            async (
                HttpContext http,
                JobDesk desk,
                FindingSource findings,
                int number,
                CancellationToken cancellation
            ) =>
            {
                if (await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record)
                    return Results.NotFound();
                var reader = Visit.Of(http).Reader;
                var html = await CardPage
                    .RenderAsync(
                        await findings.OfAsync(desk, record, cancellation).ConfigureAwait(false),
                        reader.Units,
                        reader.Local(reader.Now),
                        Routes.Job(record.Job),
                        cancellation
                    )
                    .ConfigureAwait(false);
                http.Response.Headers.ContentSecurityPolicy = SafeHeaders.CardPolicy;
                return Results.Content(html, "text/html; charset=utf-8");
            }
        );
        site.MapGet(
            "/jobs/{number:int}/next-check.ics",
            async (JobDesk desk, int number, CancellationToken cancellation) =>
            {
                if (await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record)
                    return Results.NotFound();
                var picture = await desk.PictureAsync(record, cancellation).ConfigureAwait(false);
                return Results.File(
                    Encoding.UTF8.GetBytes(CheckCalendar.Of(picture)),
                    "text/calendar; charset=utf-8",
                    CheckCalendar.FileName(picture)
                );
            }
        );
    }
}
