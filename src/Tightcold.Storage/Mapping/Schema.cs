using Microsoft.EntityFrameworkCore;

namespace Tightcold.Storage.Mapping;

/// <summary>Makes the tables and brings older ones up to date, once at start.</summary>
internal static class Schema
{
    public static async Task BringUpToDateAsync(JournalDatabase database, string path, CancellationToken cancellation)
    {
        var known = database.Database.GetMigrations().ToList();
        if (File.Exists(path) && new FileInfo(path).Length > 0)
        {
            var applied = (await database.Database.GetAppliedMigrationsAsync(cancellation).ConfigureAwait(false)).ToList();
            if (applied.Except(known, StringComparer.Ordinal).Any())
                throw new StoreException($"The data file {path} was written by a newer Tightcold; it was left untouched. Use that version, or choose another folder with --data.");
            if (applied.Count == known.Count) return;
        }
        await database.Database.ExecuteSqlRawAsync("PRAGMA journal_mode=WAL;", cancellation).ConfigureAwait(false);
        await database.Database.MigrateAsync(cancellation).ConfigureAwait(false);
    }
}
