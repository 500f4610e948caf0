using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

internal static class JobEndpoints
{
    public static void MapJobs(this IEndpointRouteBuilder site)
    {
        site.MapGet("/jobs/{number:int}", (HttpContext http, JobAnswers job, int number) =>
            Answers.OfAsync(http, ask => job.NowAsync(number, ask))
        );
        site.MapGet("/jobs/{number:int}/steps/{slug}", (HttpContext http, JobAnswers job, int number, string slug) =>
            Answers.OfAsync(http, ask => job.StepAsync(number, slug, ask))
        );
        site.MapGet("/jobs/{number:int}/journal", (HttpContext http, JobAnswers job, int number) =>
            Answers.OfAsync(http, ask => job.JournalAsync(number, ask))
        );
        site.MapGet("/jobs/{number:int}/search", (HttpContext http, SearchAnswers search, int number) =>
            Answers.OfAsync(http, ask => search.OneByOneAsync(number, ask))
        );
        site.MapGet("/jobs/{number:int}/search/all", (HttpContext http, SearchAnswers search, int number) =>
            Answers.OfAsync(http, ask => search.AllAtOnceAsync(number, ask))
        );
        site.MapGet("/jobs/{number:int}/news", NewsAsync);
        site.MapGet(
            "/jobs/{number:int}/entries/new",
            async (HttpContext http, JobDesk desk, int number, CancellationToken cancellation) =>
                await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                    ? Page.Show<KindsPage>(http, (nameof(KindsPage.Job), record.Job))
                    : Results.NotFound()
        );
        site.MapGet("/jobs/{number:int}/export", async (JobDesk desk, int number, CancellationToken cancellation) =>
            await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                ? Results.File(
                    Encoding.UTF8.GetBytes(await desk.ExportAsync(record, cancellation).ConfigureAwait(false)),
                    "application/json",
                    $"tightcold-job-{number}.json"
                )
                : Results.NotFound()
        );
    }

    /// <summary>How many entries the journal has, as its version: entries are only ever added. A page asks every few
    /// seconds; nothing new is an answer without a body. Counted in the database, so that several instances on one
    /// agree.</summary>
    private static async Task<IResult> NewsAsync(
        HttpContext http,
        JobDesk desk,
        FindingSource findings,
        int number,
        Guid? weighing,
        CancellationToken cancellation
    )
    {
        if (await desk.EntryCountAsync(number, cancellation).ConfigureAwait(false) is not { } count)
            return Results.NotFound();
        // A page that came without the odds of faults names its job, and hears when they are there.
        var weighed = weighing is not { } job || !findings.IsWeighing(job);
        var version = string.Create(
            System.Globalization.CultureInfo.InvariantCulture,
            $"\"{count}{(weighed ? "" : "-weighing")}\""
        );
        http.Response.Headers.CacheControl = "private, no-cache";
        http.Response.Headers.ETag = version;
        return http.Request.Headers.IfNoneMatch == version
            ? Results.StatusCode(StatusCodes.Status304NotModified)
            : Results.Json(new { entries = count, weighed });
    }
}
