using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Journals;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage;

public sealed partial class JobStore
{
    public Task<IReadOnlyList<ContainerUse>> ContainerUsesAsync(int number, int most, CancellationToken cancellation) =>
        Guarded<IReadOnlyList<ContainerUse>>(
            async database =>
            {
                var own = database.Jobs.AsNoTracking().Where(job => job.KitsSince == null);
                if (!await own.AnyAsync(job => job.Number == number, cancellation).ConfigureAwait(false))
                    return [];
                // By the jobs' own index: a table of millions of entries is not read through.
                var jobs = await own.Where(job => job.Number < number)
                    .OrderByDescending(job => job.Number)
                    .Take(most)
                    .Select(job => new { job.Id, job.Number })
                    .ToListAsync(cancellation)
                    .ConfigureAwait(false);
                var ids = jobs.Select(job => job.Id).ToList();
                var kinds = ContainerUse.Kinds.ToArray();
                var moved = database
                    .Entries.AsNoTracking()
                    .Where(entry => ids.Contains(entry.JobId) && kinds.Contains(entry.Kind));
                ILookup<Guid, EntryRow>? rows = null;
                try
                {
                    rows = (await moved.ToListAsync(cancellation).ConfigureAwait(false)).ToLookup(row => row.JobId);
                }
                catch (Exception trouble) when (BadCell.Is(trouble))
                {
                    // One of them is damaged: they are asked one by one, and it is left out.
                }
                var uses = new List<ContainerUse>();
                foreach (var job in jobs)
                    try
                    {
                        var mine = rows?[job.Id]
                            ?? await moved
                                .Where(entry => entry.JobId == job.Id)
                                .ToListAsync(cancellation)
                                .ConfigureAwait(false);
                        if (Journal.Create(mine.Select(RowText.Entry)).Journal is { Standing.Length: > 0 } journal)
                            uses.Add(new(job.Number, journal));
                    }
                    catch (Exception trouble) when (trouble is StoreException || BadCell.Is(trouble))
                    {
                        // What cannot be read says nothing of a can; check names the job.
                    }
                return uses;
            },
            cancellation
        );
}
