using System.Collections.Immutable;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Mass;

namespace Tightcold.App.Desk;

public sealed partial class JobDesk
{
    /// <summary>All records, or those of one car, newest first: for the ledger and a car's history.</summary>
    /// <param name="leftOut">Gets a sentence for each job that cannot be read and is therefore left out.</param>
    public async Task<IReadOnlyList<JobRecord>> RecordsAsync(
        Guid? carId,
        ICollection<string> leftOut,
        CancellationToken cancellation = default
    )
    {
        var records = new List<JobRecord>();
        await foreach (var record in store.RecordsAsync(carId, leftOut, cancellation).ConfigureAwait(false))
            records.Add(record);
        return records;
    }

    /// <summary>All records one after the other, never all at once in memory.</summary>
    public IAsyncEnumerable<JobRecord> EachRecordAsync(
        ICollection<string> leftOut,
        CancellationToken cancellation = default
    ) => store.RecordsAsync(null, leftOut, cancellation);

    /// <inheritdoc cref="IJobStore.VersionAsync"/>
    public Task<long> VersionAsync(CancellationToken cancellation = default) => store.VersionAsync(cancellation);

    /// <inheritdoc cref="IJobStore.StampsAsync"/>
    public Task<IReadOnlyDictionary<int, string>> StampsAsync(CancellationToken cancellation = default) =>
        store.StampsAsync(cancellation);

    /// <summary>The versions of the workshop's kit.</summary>
    public Task<IReadOnlyList<Jobs.Kits.Kit>> KitsAsync(CancellationToken cancellation = default) =>
        store.KitsAsync(cancellation);

    /// <summary>The other jobs of this car that were opened before it, for what they left in it.</summary>
    public async Task<ImmutableArray<JobRecord>> EarlierAsync(
        JobRecord record,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(record);
        var earlier = ImmutableArray.CreateBuilder<JobRecord>();
        // Most cars come once: their one journal is not read a second time.
        var jobs = (
            await store
                .JobsAsync(new JobSearch { CarId = record.Car.Id, Most = int.MaxValue }, cancellation)
                .ConfigureAwait(false)
        ).Jobs;
        bool Before(Job job) => job.Id != record.Job.Id && job.OpenedAt < record.Job.OpenedAt;
        if (!jobs.Any(job => job.Id != record.Job.Id && job.OpenedAt < record.Job.OpenedAt))
            return [];
        // A job that cannot be read tells nothing of this one; the car's page and the check name it.
        await foreach (var other in store.RecordsAsync(record.Car.Id, [], cancellation).ConfigureAwait(false))
            if (Before(other.Job))
                earlier.Add(other);
        return earlier.ToImmutable();
    }

    /// <summary>Jobs that are looked through for what they left in a can: more than a cylinder of ten kilograms
    /// serves.</summary>
    private const int MostUses = 100;

    /// <summary>What other jobs left in cans and cylinders before this one.</summary>
    public async Task<ImmutableArray<ShelfContent>> ShelfAsync(
        JobRecord record,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(record);
        return ShelfReader.Of(
            record,
            await store.ContainerUsesAsync(record.Job.Number, MostUses, cancellation).ConfigureAwait(false)
        );
    }

    /// <summary>What the job's journal means, with the car's earlier jobs and the shelf in sight.</summary>
    public async Task<JobPicture> PictureAsync(JobRecord record, CancellationToken cancellation = default) =>
        new(
            record,
            await EarlierAsync(record, cancellation).ConfigureAwait(false),
            await ShelfAsync(record, cancellation).ConfigureAwait(false)
        );
}
