using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage.Engines;

/// <summary>All rows from one database to an empty one, whatever the two are: how a server's data become a backup file,
/// and a file's data move to a server.</summary>
internal static class DataCopy
{
    private const int Batch = 500;

    public static async Task RunAsync(Engine from, Engine to, CancellationToken cancellation)
    {
        var source = from.Open();
        await using (source.ConfigureAwait(false))
        {
            var target = to.Open();
            await using (target.ConfigureAwait(false))
            {
                var moment = await from.ReadAsync(source, cancellation).ConfigureAwait(false);
                await using (moment.ConfigureAwait(false))
                {
                    var writing = await target.Database.BeginTransactionAsync(cancellation).ConfigureAwait(false);
                    await using (writing.ConfigureAwait(false))
                    {
                        target.ChangeTracker.AutoDetectChangesEnabled = false;
                        await RowsAsync<CarRow>(source, target, cancellation).ConfigureAwait(false);
                        await RowsAsync<KitRow>(source, target, cancellation).ConfigureAwait(false);
                        await RowsAsync<JobRow>(source, target, cancellation).ConfigureAwait(false);
                        await RowsAsync<JobKitRow>(source, target, cancellation).ConfigureAwait(false);
                        await RowsAsync<EntryRow>(source, target, cancellation).ConfigureAwait(false);
                        await RowsAsync<PhotoRow>(source, target, cancellation).ConfigureAwait(false);
                        await RowsAsync<JobLineRow>(source, target, cancellation).ConfigureAwait(false);
                        await writing.CommitAsync(cancellation).ConfigureAwait(false);
                    }
                }
            }
        }
    }

    private static async Task RowsAsync<TRow>(
        JournalDatabase source,
        JournalDatabase target,
        CancellationToken cancellation
    )
        where TRow : class
    {
        var waiting = 0;
        await foreach (
            var row in source
                .Set<TRow>()
                .AsNoTracking()
                .AsAsyncEnumerable()
                .WithCancellation(cancellation)
                .ConfigureAwait(false)
        )
        {
            target.Add(row);
            if (++waiting % Batch == 0)
                await WriteAsync(target, cancellation).ConfigureAwait(false);
        }
        await WriteAsync(target, cancellation).ConfigureAwait(false);
    }

    private static async Task WriteAsync(JournalDatabase target, CancellationToken cancellation)
    {
        await target.SaveChangesAsync(cancellation).ConfigureAwait(false);
        target.ChangeTracker.Clear();
    }

    /// <summary>Makes one file of a data file: what stands in its log goes into it, and the log goes with the last
    /// connection.</summary>
    /// <param name="journal">How the file is to write from now on: <c>WAL</c>, as data in use do, or <c>DELETE</c>, as
    /// a copy to be carried away does; null leaves it alone.</param>
    public static async Task SettleAsync(SqliteEngine engine, string? journal, CancellationToken cancellation)
    {
        engine.Release();
        var connection = new SqliteConnection(
            new SqliteConnectionStringBuilder { DataSource = engine.FilePath, Pooling = false }.ToString()
        );
        await using (connection.ConfigureAwait(false))
        {
            await connection.OpenAsync(cancellation).ConfigureAwait(false);
            var command = connection.CreateCommand();
            await using (command.ConfigureAwait(false))
            {
                // That nobody else has the file open is the caller's affair.
                command.CommandText =
                    $"PRAGMA busy_timeout=2000; PRAGMA wal_checkpoint(TRUNCATE);"
                    + (journal is null ? "" : $" PRAGMA journal_mode={journal};");
                await command.ExecuteNonQueryAsync(cancellation).ConfigureAwait(false);
            }
        }
        ToDisk(engine.FilePath);
    }

    /// <summary>Waits until the disk has the file.</summary>
    public static void ToDisk(string file)
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite);
        stream.Flush(flushToDisk: true);
    }
}
