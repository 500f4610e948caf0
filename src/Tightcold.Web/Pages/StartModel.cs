using System.Collections.Immutable;
using Tightcold.App.Desk;
using Tightcold.Findings;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Web.Words;

namespace Tightcold.Web.Pages;

/// <summary>What waits for what.</summary>
public sealed record StartModel(
    IReadOnlyList<Car> Cars, IReadOnlyList<StartModel.OpenJob> Open, IReadOnlyList<JobSummary> Waiting, IReadOnlyList<JobSummary> Closed)
{
    /// <summary>So many open jobs are shown with their step; a person alone has fewer.</summary>
    private const int Shown = 20;

    public sealed record OpenJob(JobRecord Record, Step Step, Phrase? Verdict, IReadOnlyList<RunningClocks.Clock> Clocks, DateTimeOffset? Last);

    public static async Task<StartModel> OfAsync(JobDesk desk, Func<JobRecord, ImmutableArray<Finding>> look, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(desk);
        ArgumentNullException.ThrowIfNull(look);
        var jobs = await desk.JobsAsync(cancellation).ConfigureAwait(false);
        var open = new List<OpenJob>();
        foreach (var job in jobs.Where(job => job.State == "open").Take(Shown))
        {
            if (await desk.RecordAsync(job.Number, cancellation).ConfigureAwait(false) is not { } record) continue;
            var findings = look(record);
            var step = Walk.Current(record, findings);
            open.Add(new(record, step, findings.FirstOrDefault(finding => finding.Step == step)?.Verdict, RunningClocks.Of(record), job.LastEntryAt));
        }
        return new(
            await desk.CarsAsync(cancellation).ConfigureAwait(false), open,
            [.. jobs.Where(job => job.State == "waiting")], [.. jobs.Where(job => job.State == "closed")]);
    }
}
