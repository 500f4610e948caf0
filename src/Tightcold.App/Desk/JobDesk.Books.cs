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
}
