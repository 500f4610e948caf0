using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Web.Http;
using Tightcold.Web.Words;

namespace Tightcold.Web.Pages;

internal static class JobEndpoints
{
    public static void MapJobs(this IEndpointRouteBuilder site)
    {
        site.MapGet("/jobs/{number:int}", ShowAsync);
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

    private static async Task<IResult> ShowAsync(
        HttpContext http,
        JobDesk desk,
        FindingSource findings,
        int number,
        string? step,
        Guid? wrote,
        CancellationToken cancellation
    )
    {
        if (await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record)
            return Results.NotFound();
        var model = new JobModel(
            await findings.SoonAsync(desk, record, cancellation).ConfigureAwait(false),
            wrote is { } id ? record.Journal.Find(id) : null,
            StepWords.FromSlug(step)
        );
        return Page.Show<JobPage>(http, (nameof(JobPage.Model), model));
    }
}
