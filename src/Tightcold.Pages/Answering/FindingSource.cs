using System.Collections.Concurrent;
using System.Collections.Immutable;
using Tightcold.App.Desk;
using Tightcold.Findings;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Picture;
using Tightcold.Picture.Mass;

namespace Tightcold.Pages.Answering;

/// <summary>The findings of a record, weighed once for each state of its journal and of the car's earlier jobs: leaks
/// and faults cost some tenths of a second. A cache and no truth: findings are a pure function of what is compared
/// here.</summary>
/// <param name="of">The findings of a picture.</param>
/// <param name="patience">How long a page waits for the odds of faults before it comes without them.</param>
/// <param name="mayWeigh">False where another place weighs: what is not known there is never begun here, unless it is asked
/// for as a whole.</param>
internal sealed class FindingSource(
    Func<JobPicture, ImmutableArray<Finding>> of,
    TimeSpan patience,
    bool mayWeigh = true
) : IDisposable
{
    /// <summary>Jobs kept; when full, all go and the next question weighs again.</summary>
    private const int MostJobs = 256;

    private readonly ConcurrentDictionary<Guid, JobSight> known = new();

    /// <summary>Weighing keeps a processor busy for long: one stays free for those who only write something
    /// down.</summary>
    private readonly SemaphoreSlim processors = new(Math.Max(1, Environment.ProcessorCount - 1));

    // Who asks for a job that is being looked at waits for that answer instead of asking again. Jobs share a turn by
    // chance of their ids; that costs a wait, never an answer.
    private readonly ImmutableArray<SemaphoreSlim> looks = Turns(),
        weighs = Turns();

    /// <summary>The data's version at which a job was read last, and what was read: while nothing was written since, a
    /// page of many jobs need not read each of them again.</summary>
    private readonly ConcurrentDictionary<Guid, (long Version, JobRecord Record)> read = new();

    /// <summary>Jobs being weighed for a page that was answered at a glance.</summary>
    private readonly ConcurrentDictionary<Guid, Task> weighing = new();

    /// <summary>Whether a page that was answered at a glance has no more to wait for.</summary>
    public async Task<bool> IsWeighedAsync(JobDesk desk, int number, Guid job, CancellationToken cancellation)
    {
        if (weighing.ContainsKey(job))
            return false;
        // Weighed here, or by nobody any more: the page that comes now has it, or begins anew.
        if (mayWeigh && patience != Timeout.InfiniteTimeSpan)
            return true;
        if (await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record)
            return true;
        // Where pages wait for the whole, this question does too.
        return (await SoonAsync(desk, record, cancellation).ConfigureAwait(false)).IsWhole;
    }

    /// <summary>All findings when they are there or come within the site's patience, else what a glance tells, while
    /// the rest is weighed on.</summary>
    public async Task<JobSight> SoonAsync(JobDesk desk, JobRecord record, CancellationToken cancellation)
    {
        var glance = await AtAGlanceAsync(desk, record, cancellation).ConfigureAwait(false);
        if (glance.IsWhole || !mayWeigh)
            return glance;
        // Weighed to its end even when the asker leaves: the next one asks the same.
        var whole = Task.Run(() => WholeAsync(glance, CancellationToken.None), CancellationToken.None);
        if (weighing.TryAdd(record.Job.Id, whole))
            _ = whole.ContinueWith(
                _ => weighing.TryRemove(record.Job.Id, out Task? _),
                CancellationToken.None,
                TaskContinuationOptions.ExecuteSynchronously,
                TaskScheduler.Default
            );
        if (patience == TimeSpan.Zero)
            return glance;
        return await Task.WhenAny(whole, Task.Delay(patience, cancellation)).ConfigureAwait(false) == whole
            ? await whole.ConfigureAwait(false)
            : glance;
    }

    /// <summary>What is known at once, without the odds of faults that were not weighed yet; nothing is
    /// begun.</summary>
    public async Task<JobSight> AtAGlanceAsync(JobDesk desk, JobRecord record, CancellationToken cancellation)
    {
        var earlier = await desk.EarlierAsync(record, cancellation).ConfigureAwait(false);
        var shelf = await desk.ShelfAsync(record, cancellation).ConfigureAwait(false);
        if (Known(record, earlier, shelf) is { } there)
            return there;
        using var turn = await TurnAsync(looks, record.Job.Id, cancellation).ConfigureAwait(false);
        if (Known(record, earlier, shelf) is { } meanwhile)
            return meanwhile;
        var picture = new JobPicture(
            record,
            earlier,
            shelf,
            known.GetValueOrDefault(record.Job.Id)?.Picture,
            atAGlance: true
        );
        return Keep(new(picture, of(picture), picture.Unweighed is null));
    }

    /// <summary>The same of a job in a list, read only when anything was written since it was seen last.</summary>
    /// <param name="version">The data's, asked for before the list was.</param>
    /// <returns>Null when it is gone meanwhile.</returns>
    public async Task<JobSight?> AtAGlanceAsync(
        JobDesk desk,
        JobSummary job,
        long version,
        CancellationToken cancellation
    )
    {
        // The very record: what was weighed for longer may be of an earlier state.
        if (
            read.TryGetValue(job.Id, out var last)
            && last.Version == version
            && known.TryGetValue(job.Id, out var there)
            && ReferenceEquals(there.Picture.Record, last.Record)
        )
            return there;
        if (await desk.RecordAsync(job.Number, cancellation).ConfigureAwait(false) is not { } record)
            return null;
        var sight = await AtAGlanceAsync(desk, record, cancellation).ConfigureAwait(false);
        read[job.Id] = (version, sight.Picture.Record);
        return sight;
    }

    /// <summary>All findings, with the car's earlier jobs in sight: what they left in it counts.</summary>
    public async Task<JobSight> OfAsync(JobDesk desk, JobRecord record, CancellationToken cancellation)
    {
        var glance = await AtAGlanceAsync(desk, record, cancellation).ConfigureAwait(false);
        return glance.IsWhole ? glance : await WholeAsync(glance, cancellation).ConfigureAwait(false);
    }

    /// <summary>From a glance's own record, so that what it drew is not drawn again.</summary>
    private async Task<JobSight> WholeAsync(JobSight glance, CancellationToken cancellation)
    {
        var (record, earlier, shelf) = (glance.Picture.Record, glance.Picture.Earlier, glance.Picture.Shelf);
        using var turn = await TurnAsync(weighs, record.Job.Id, cancellation).ConfigureAwait(false);
        if (Known(record, earlier, shelf) is { IsWhole: true } meanwhile)
            return meanwhile;
        await processors.WaitAsync(cancellation).ConfigureAwait(false);
        try
        {
            var picture = new JobPicture(record, earlier, shelf, glance.Picture);
            return Keep(new(picture, of(picture), IsWhole: true));
        }
        finally
        {
            processors.Release();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        processors.Dispose();
        foreach (var turn in looks.Concat(weighs))
            turn.Dispose();
    }

    private JobSight Keep(JobSight sight)
    {
        if (known.Count >= MostJobs)
        {
            known.Clear();
            read.Clear();
        }
        known[sight.Picture.Record.Job.Id] = sight;
        return sight;
    }

    private static ImmutableArray<SemaphoreSlim> Turns() =>
        [.. Enumerable.Range(0, 32).Select(_ => new SemaphoreSlim(1))];

    private static async Task<Turn> TurnAsync(
        ImmutableArray<SemaphoreSlim> turns,
        Guid job,
        CancellationToken cancellation
    )
    {
        var turn = turns[(job.GetHashCode() & int.MaxValue) % turns.Length];
        await turn.WaitAsync(cancellation).ConfigureAwait(false);
        return new(turn);
    }

    private readonly struct Turn(SemaphoreSlim taken) : IDisposable
    {
        public void Dispose() => taken.Release();
    }

    private JobSight? Known(JobRecord record, ImmutableArray<JobRecord> earlier, ImmutableArray<ShelfContent> shelf) =>
        known.TryGetValue(record.Job.Id, out var there)
        && Same(there.Picture.Record, record)
        && SameAll(there.Picture.Earlier, earlier)
        && there.Picture.Shelf.SequenceEqual(shelf)
            ? there
            : null;

    private static bool SameAll(ImmutableArray<JobRecord> left, ImmutableArray<JobRecord> right) =>
        left.Length == right.Length && left.Zip(right).All(pair => Same(pair.First, pair.Second));

    /// <summary>Entries and kits never change under their id; a car's label data may.</summary>
    private static bool Same(JobRecord left, JobRecord right) =>
        left.Job == right.Job
        && left.Car == right.Car
        && left.Kits.Select(kit => (kit.Id, kit.From)).SequenceEqual(right.Kits.Select(kit => (kit.Id, kit.From)))
        && left.Journal.All.Select(entry => entry.Id).SequenceEqual(right.Journal.All.Select(entry => entry.Id));
}
