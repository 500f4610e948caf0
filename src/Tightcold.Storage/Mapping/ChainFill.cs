using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Journals;

namespace Tightcold.Storage.Mapping;

/// <summary>Gives journals from before there were chains theirs, in the order in which their entries were written, and
/// the other rows their sums. What is not readable stays without: <c>check</c> names it.</summary>
internal static class ChainFill
{
    private const int Batch = 500;

    public static async Task RunAsync(JournalDatabase database, CancellationToken cancellation)
    {
        await SumAsync(
                database,
                database.Cars,
                row => row.Digest == "",
                row => row.Digest = RowSum.Of(row),
                cancellation
            )
            .ConfigureAwait(false);
        await SumAsync(
                database,
                database.Kits,
                row => row.Digest == "",
                row => row.Digest = RowSum.Of(row),
                cancellation
            )
            .ConfigureAwait(false);
        await SumAsync(
                database,
                database.Jobs,
                row => row.Digest == "",
                row => row.Digest = RowSum.Of(row),
                cancellation
            )
            .ConfigureAwait(false);
        await SumAsync(
                database,
                database.JobKits,
                row => row.Digest == "",
                row => row.Digest = RowSum.Of(row),
                cancellation
            )
            .ConfigureAwait(false);
        var jobs = await database
            .Entries.Where(entry => entry.Digest == "")
            .Select(entry => entry.JobId)
            .Distinct()
            .ToListAsync(cancellation)
            .ConfigureAwait(false);
        foreach (var part in jobs.Chunk(Batch))
        {
            var transaction = await database.Database.BeginTransactionAsync(cancellation).ConfigureAwait(false);
            await using (transaction.ConfigureAwait(false))
            {
                foreach (var job in part)
                    await ChainAsync(database, job, cancellation).ConfigureAwait(false);
                await transaction.CommitAsync(cancellation).ConfigureAwait(false);
            }
        }
    }

    private static async Task ChainAsync(JournalDatabase database, Guid jobId, CancellationToken cancellation)
    {
        try
        {
            var job = await database
                .Jobs.AsNoTracking()
                .FirstAsync(row => row.Id == jobId, cancellation)
                .ConfigureAwait(false);
            var digest = JournalChain.Start(RowText.Job(job));
            foreach (
                var row in await database
                    .Entries.Where(entry => entry.JobId == jobId)
                    .OrderBy(entry => entry.Sequence)
                    .ToListAsync(cancellation)
                    .ConfigureAwait(false)
            )
                row.Digest = digest = JournalChain.Next(digest, RowText.Entry(row));
            await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
        }
        catch (Exception trouble) when (trouble is StoreException || BadCell.Is(trouble))
        {
            // The job cannot be read, with a chain or without: marked, so that no start tries it again.
            await database
                .Entries.Where(entry => entry.JobId == jobId && entry.Digest == "")
                .ExecuteUpdateAsync(row => row.SetProperty(entry => entry.Digest, "unread"), cancellation)
                .ConfigureAwait(false);
        }
        finally
        {
            database.ChangeTracker.Clear();
        }
    }

    private static async Task SumAsync<TRow>(
        JournalDatabase database,
        DbSet<TRow> rows,
        Expression<Func<TRow, bool>> without,
        Action<TRow> sum,
        CancellationToken cancellation
    )
        where TRow : class
    {
        try
        {
            while (
                await rows.Where(without).Take(Batch).ToListAsync(cancellation).ConfigureAwait(false)
                    is { Count: > 0 } some
            )
            {
                some.ForEach(sum);
                await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
                database.ChangeTracker.Clear();
            }
        }
        catch (Exception trouble) when (BadCell.Is(trouble))
        {
            // A row that cannot be read: it and those behind it go without a sum.
            database.ChangeTracker.Clear();
        }
    }
}
