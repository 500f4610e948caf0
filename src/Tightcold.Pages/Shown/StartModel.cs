using Tightcold.App.Desk;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Circuit;

using Tightcold.Pages.Asked;

namespace Tightcold.Pages.Shown;

/// <summary>What waits for what.</summary>
public sealed record StartModel(
    IReadOnlyList<Car> Cars,
    IReadOnlyList<StartModel.OpenJob> Open,
    IReadOnlyList<JobSummary> Waiting,
    IReadOnlyList<JobSummary> Closed
)
{
    /// <summary>All there are, of which the start shows the first.</summary>
    public int OpenCount { get; init; }
    public int WaitingCount { get; init; }
    public int ClosedCount { get; init; }
    public bool MoreCars { get; init; }

    /// <summary>So many of each kind are shown, open jobs with their step; a person alone has fewer.</summary>
    private const int Shown = 20;

    /// <param name="Timers">What runs, and by when somebody should look.</param>
    /// <param name="Now">What it waits for, and the one thing to do.</param>
    public sealed record OpenJob(JobRecord Record, NowLine Now, IReadOnlyList<WorkTimer> Timers, DateTimeOffset? Last);

    public static async Task<StartModel> OfAsync(
        JobDesk desk,
        Func<JobSummary, Task<JobSight?>> look,
        DateTimeOffset now,
        CancellationToken cancellation
    )
    {
        ArgumentNullException.ThrowIfNull(desk);
        ArgumentNullException.ThrowIfNull(look);
        Task<JobsFound> FirstAsync(string state) =>
            desk.JobsAsync(new JobSearch { State = state, Most = Shown }, cancellation);
        var counts = await desk.JobCountsAsync(cancellation).ConfigureAwait(false);
        var jobs = (await FirstAsync("open").ConfigureAwait(false)).Jobs;
        var open = new List<OpenJob>();
        foreach (var job in jobs)
        {
            if (await look(job).ConfigureAwait(false) is not { Picture: var picture })
                continue;
            open.Add(new(picture.Record, NowWords.Of(picture), WorkTimers.Of(picture), job.LastEntryAt));
        }
        var cars = await desk.CarsAsync("", 0, Shown + 1, cancellation).ConfigureAwait(false);
        return new(
            [.. cars.Take(Shown)],
            // What is overdue first, then what is due next, then the rest, the latest entry first.
            [
                .. open.OrderBy(line => line.Timers.Count == 0 ? now.AddYears(1) : line.Timers[0].Due)
                    .ThenByDescending(line => line.Last),
            ],
            (await FirstAsync("waiting").ConfigureAwait(false)).Jobs,
            (await FirstAsync("closed").ConfigureAwait(false)).Jobs
        )
        {
            OpenCount = counts.GetValueOrDefault("open"),
            WaitingCount = counts.GetValueOrDefault("waiting"),
            ClosedCount = counts.GetValueOrDefault("closed"),
            MoreCars = cars.Count > Shown,
        };
    }
}
