using System.Collections.Concurrent;
using System.Collections.Immutable;
using Tightcold.App.Desk;
using Tightcold.Findings;
using Tightcold.Jobs.Journals;

namespace Tightcold.Web.Pages;

/// <summary>The findings of a record, weighed once for each state of its journal and of the car's earlier jobs: leaks and
/// faults cost some tenths of a second. A cache and no truth: findings are a pure function of what is compared here.</summary>
internal sealed class FindingSource(Func<JobViews, ImmutableArray<Finding>> of) : IDisposable
{
    /// <summary>Jobs kept; when full, all go and the next question weighs again.</summary>
    private const int MostJobs = 64;

    private readonly ConcurrentDictionary<Guid, JobSight> known = new();

    /// <summary>Weighing keeps a processor busy for long: one stays free for those who only write something down.</summary>
    private readonly SemaphoreSlim processors = new(Math.Max(1, Environment.ProcessorCount - 1));

    /// <summary>Who asks for a job that is being weighed waits for that answer instead of weighing it again. Jobs share a turn
    /// by chance of their ids; that costs a wait, never an answer.</summary>
    private readonly ImmutableArray<SemaphoreSlim> turns = [.. Enumerable.Range(0, 32).Select(_ => new SemaphoreSlim(1))];

    /// <summary>With the car's earlier jobs in sight: what they left in it counts.</summary>
    public async Task<JobSight> OfAsync(JobDesk desk, JobRecord record, CancellationToken cancellation)
    {
        var earlier = await desk.EarlierAsync(record, cancellation).ConfigureAwait(false);
        if (Known(record, earlier) is { } there) return there;
        var turn = turns[(record.Job.Id.GetHashCode() & int.MaxValue) % turns.Length];
        await turn.WaitAsync(cancellation).ConfigureAwait(false);
        try
        {
            if (Known(record, earlier) is { } meanwhile) return meanwhile;
            await processors.WaitAsync(cancellation).ConfigureAwait(false);
            try
            {
                var views = new JobViews(record, earlier, known.GetValueOrDefault(record.Job.Id)?.Views);
                var sight = new JobSight(views, of(views));
                if (known.Count >= MostJobs) known.Clear();
                known[record.Job.Id] = sight;
                return sight;
            }
            finally
            {
                processors.Release();
            }
        }
        finally
        {
            turn.Release();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        processors.Dispose();
        foreach (var turn in turns) turn.Dispose();
    }

    private JobSight? Known(JobRecord record, ImmutableArray<JobRecord> earlier) =>
        known.TryGetValue(record.Job.Id, out var there) && Same(there.Views.Record, record) && SameAll(there.Views.Earlier, earlier) ? there : null;

    private static bool SameAll(ImmutableArray<JobRecord> left, ImmutableArray<JobRecord> right) =>
        left.Length == right.Length && left.Zip(right).All(pair => Same(pair.First, pair.Second));

    /// <summary>Entries and kits never change under their id; a car's label data may.</summary>
    private static bool Same(JobRecord left, JobRecord right) =>
        left.Job == right.Job && left.Car == right.Car
        && left.Kits.Select(kit => (kit.Id, kit.From)).SequenceEqual(right.Kits.Select(kit => (kit.Id, kit.From)))
        && left.Journal.All.Select(entry => entry.Id).SequenceEqual(right.Journal.All.Select(entry => entry.Id));
}
