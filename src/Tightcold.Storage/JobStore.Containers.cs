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
                var rows = (
                    await database
                        .Entries.AsNoTracking()
                        .Where(entry => ids.Contains(entry.JobId) && kinds.Contains(entry.Kind))
                        .ToListAsync(cancellation)
                        .ConfigureAwait(false)
                ).ToLookup(entry => entry.JobId);
                var uses = new List<ContainerUse>();
                foreach (var job in jobs)
                    if (Journal.Create(rows[job.Id].Select(RowText.Entry)).Journal is { Standing.Length: > 0 } journal)
                        uses.Add(new(job.Number, journal));
                return uses;
            },
            cancellation
        );
}
