using System.Collections.Immutable;
using Tightcold.Jobs.Journals;

namespace Tightcold.App.Desk;

public sealed partial class JobDesk
{
    /// <summary>All records, or those of one car, newest first: for the ledger and a car's history.</summary>
    public async Task<IReadOnlyList<JobRecord>> RecordsAsync(Guid? carId = null, CancellationToken cancellation = default)
    {
        var records = new List<JobRecord>();
        await foreach (var record in store.RecordsAsync(carId, cancellation).ConfigureAwait(false)) records.Add(record);
        return records;
    }

    /// <summary>The other jobs of this car that were opened before it, for what they left in it.</summary>
    public async Task<ImmutableArray<JobRecord>> EarlierAsync(JobRecord record, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(record);
        var earlier = ImmutableArray.CreateBuilder<JobRecord>();
        // Most cars come once: their one journal is not read a second time.
        var jobs = (await store.JobsAsync(new JobSearch { CarId = record.Car.Id, Most = int.MaxValue }, cancellation).ConfigureAwait(false)).Jobs;
        foreach (var job in jobs)
            if (job.Id != record.Job.Id && job.OpenedAt < record.Job.OpenedAt && await store.RecordAsync(job.Number, cancellation).ConfigureAwait(false) is { } other) earlier.Add(other);
        return earlier.ToImmutable();
    }
}
