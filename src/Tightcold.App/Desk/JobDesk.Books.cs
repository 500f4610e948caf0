using Tightcold.Jobs.Journals;

namespace Tightcold.App.Desk;

public sealed partial class JobDesk
{
    /// <summary>All records, or those of one car, newest first: for the ledger and a car's history.</summary>
    public async Task<IReadOnlyList<JobRecord>> RecordsAsync(Guid? carId = null, CancellationToken cancellation = default)
    {
        var records = new List<JobRecord>();
        foreach (var job in await store.JobsAsync(cancellation).ConfigureAwait(false))
        {
            if (carId is { } wanted && job.CarId != wanted) continue;
            if (await store.RecordAsync(job.Number, cancellation).ConfigureAwait(false) is { } record) records.Add(record);
        }
        return records;
    }
}
