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
        site.MapGet("/jobs/{number:int}/entries/new", async (HttpContext http, JobDesk desk, int number, CancellationToken cancellation) =>
            await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                ? Page.Show<KindsPage>(http, (nameof(KindsPage.Job), record.Job)) : Results.NotFound());
        site.MapGet("/jobs/{number:int}/export", async (JobDesk desk, int number, CancellationToken cancellation) =>
            await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                ? Results.File(Encoding.UTF8.GetBytes(JobDesk.Export(record)), "application/json", $"tightcold-job-{number}.json") : Results.NotFound());
    }

    private static async Task<IResult> ShowAsync(
        HttpContext http, JobDesk desk, FindingSource findings, int number, string? step, Guid? wrote, CancellationToken cancellation)
    {
        if (await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record) return Results.NotFound();
        var model = new JobModel(record, findings.Of(record), wrote is { } id ? record.Journal.Find(id) : null, StepWords.FromSlug(step));
        return Page.Show<JobPage>(http, (nameof(JobPage.Model), model));
    }
}
