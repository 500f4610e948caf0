using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Tightcold.App.Books;
using Tightcold.App.Desk;
using Tightcold.Web.Card;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

internal static class CardEndpoints
{
    public static void MapCard(this IEndpointRouteBuilder site)
    {
        site.MapGet("/jobs/{number:int}/card", (HttpContext http, int number) =>
            CardAsync(http, number, asFile: false)
        );
        site.MapGet("/jobs/{number:int}/card.html", (HttpContext http, int number) =>
            CardAsync(http, number, asFile: true)
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

    /// <param name="asFile">To be kept or sent: without the way back, under its own name.</param>
    private static async Task<IResult> CardAsync(HttpContext http, int number, bool asFile)
    {
        var desk = http.RequestServices.GetRequiredService<JobDesk>();
        if (await desk.RecordAsync(number, http.RequestAborted).ConfigureAwait(false) is not { } record)
            return Results.NotFound();
        var findings = http.RequestServices.GetRequiredService<FindingSource>();
        var reader = Visit.Of(http).Reader;
        var html = await CardPage
            .RenderAsync(
                await findings.OfAsync(desk, record, http.RequestAborted).ConfigureAwait(false),
                await desk.PhotosAsync(record, http.RequestAborted).ConfigureAwait(false),
                reader.Units,
                reader.Local(reader.Now),
                asFile ? null : Routes.Job(record.Job),
                http.RequestAborted
            )
            .ConfigureAwait(false);
        http.Response.Headers.ContentSecurityPolicy = SafeHeaders.CardPolicy;
        return asFile
            ? Results.File(
                Encoding.UTF8.GetBytes(html),
                "text/html; charset=utf-8",
                string.Create(CultureInfo.InvariantCulture, $"job-{number}-card.html")
            )
            : Results.Content(html, "text/html; charset=utf-8");
    }
}
