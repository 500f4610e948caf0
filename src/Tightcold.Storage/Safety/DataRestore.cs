using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Storage.Engines;

namespace Tightcold.Storage.Safety;

/// <summary>Puts a backup in the place of the data. The backup is read whole before anything is touched, and at every
/// moment either the old data or the new stand in their place.</summary>
public static class DataRestore
{
    /// <param name="now">Dates the name under which the old data stay.</param>
    public static async Task<RestoreReport> RunAsync(
        DataPlace place,
        string file,
        Func<JobRecord, IEnumerable<string>>? more,
        DateTimeOffset now,
        CancellationToken cancellation
    )
    {
        ArgumentNullException.ThrowIfNull(place);
        try
        {
            DataFolder.Make(place.Folder);
            // Where the data go to a server the folder only lends its room.
            using var held = place.Connection is null
                ? FileLock.TryAlone(place.Folder)
                : await FileLock.UseAsync(place.Folder, cancellation).ConfigureAwait(false);
            if (held is null && place.Connection is null)
                throw new StoreException(
                    Phrase.Of(
                        $"The data in {Phrase.Verbatim(place.Folder)} are in use: a running site or another command holds them. Stop "
                            + $"it, then restore; nothing was changed."
                    )
                );
            // Beside the target, so that taking its place is one step.
            var stage = Path.Combine(place.Folder, Leftovers.RestoreFolder);
            if (Directory.Exists(stage))
                Directory.Delete(stage, recursive: true);
            DataFolder.Make(stage);
            try
            {
                var verified = await VerifiedAsync(file, stage, more, cancellation).ConfigureAwait(false);
                return place.Connection is { } connection
                    ? await ToServerAsync(connection, verified, cancellation).ConfigureAwait(false)
                    : await ToFileAsync(place.Folder, verified, now, cancellation).ConfigureAwait(false);
            }
            finally
            {
                Directory.Delete(stage, recursive: true);
            }
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            throw new StoreException(
                Phrase.Of(
                    $"The backup could not be put in place ({Phrase.Verbatim(trouble.Message)}); the data are as they were."
                ),
                trouble
            );
        }
    }

    private static async Task<RestoreReport> ToFileAsync(
        string folder,
        (string File, CheckReport Check) verified,
        DateTimeOffset now,
        CancellationToken cancellation
    )
    {
        var target = DataFolder.DataFile(folder);
        var kept = File.Exists(target)
            ? await KeepAsync(target, folder, now, cancellation).ConfigureAwait(false)
            : null;
        // Over the old file in one step; a log of the old one beside the new would be read as the new one's own.
        File.Delete(target + "-wal");
        File.Delete(target + "-shm");
        File.Move(verified.File, target, overwrite: true);
        return new(target, kept, verified.Check);
    }

    /// <summary>A copy of the backup, brought up to date and read whole. The backup itself is only read.</summary>
    private static async Task<(string File, CheckReport Check)> VerifiedAsync(
        string file,
        string stage,
        Func<JobRecord, IEnumerable<string>>? more,
        CancellationToken cancellation
    )
    {
        var copy = DataFolder.DataFile(stage);
        var source = new SqliteEngine(Path.GetFullPath(file), readOnly: true);
        try
        {
            if (!await source.IsOursAsync(cancellation).ConfigureAwait(false))
                throw new StoreException(
                    Phrase.Of($"The file {Phrase.Verbatim(file)} holds no Tightcold data; nothing was changed.")
                );
            PrivateFile.Make(copy);
            await source.CopyToAsync(copy, cancellation).ConfigureAwait(false);
        }
        catch (Exception trouble) when (source.Explain(trouble) is { } known)
        {
            throw new StoreException(
                Phrase.Of($"The backup {Phrase.Verbatim(file)} cannot be read, and nothing was changed. {known.Says}"),
                trouble
            );
        }
        var engine = new SqliteEngine(copy);
        CheckReport check;
        using (var store = await JobStore.PreparedAsync(engine, cancellation).ConfigureAwait(false))
            check = await store.CheckAsync(more, cancellation).ConfigureAwait(false);
        // A job that cannot be read is named, and keeps nobody from the others: it stays in the file as it is.
        if (check.Damage.Length > 0)
        {
            var found = Phrase.Join(" ", check.Says.Take(3));
            throw new StoreException(
                Phrase.Of($"The backup {Phrase.Verbatim(file)} is not sound, and nothing was changed. {found}")
            );
        }
        await DataCopy.SettleAsync(engine, "WAL", cancellation).ConfigureAwait(false);
        engine.Release();
        return (copy, check);
    }

    /// <summary>The old data under a dated name, log and all: they may be damaged, and somebody may yet save something
    /// from them.</summary>
    private static async Task<string> KeepAsync(
        string target,
        string folder,
        DateTimeOffset now,
        CancellationToken cancellation
    )
    {
        var name = Path.Combine(
            folder,
            "tightcold-before-restore-" + now.ToString("yyyy-MM-dd-HHmmss", CultureInfo.InvariantCulture)
        );
        var kept = name + ".db";
        for (var i = 2; File.Exists(kept); i++)
            kept = string.Create(CultureInfo.InvariantCulture, $"{name}-{i}.db");
        try
        {
            await DataCopy.SettleAsync(new SqliteEngine(target), null, cancellation).ConfigureAwait(false);
        }
        catch (Microsoft.Data.Sqlite.SqliteException)
        {
            // Damaged: it is kept as it stands.
        }
        PrivateFile.Close(target);
        if (File.Exists(target + "-wal"))
            File.Copy(target + "-wal", kept + "-wal");
        // Under its name when it is whole: a restore that is killed here leaves nothing that looks like kept data.
        File.Copy(target, kept + Leftovers.Part, overwrite: true);
        DataCopy.ToDisk(kept + Leftovers.Part);
        File.Move(kept + Leftovers.Part, kept);
        return kept;
    }

    private static async Task<RestoreReport> ToServerAsync(
        string connection,
        (string File, CheckReport Check) verified,
        CancellationToken cancellation
    )
    {
        var engine = new PostgresEngine(connection);
        using var store = await JobStore.PreparedAsync(engine, cancellation).ConfigureAwait(false);
        try
        {
            var database = engine.Open();
            await using (database.ConfigureAwait(false))
            {
                if (
                    await database.Cars.AnyAsync(cancellation).ConfigureAwait(false)
                    || await database.Kits.AnyAsync(cancellation).ConfigureAwait(false)
                )
                    throw new StoreException(
                        Phrase.Of(
                            $"Data are in {engine.Name} already, and a restore never writes over a server's data; make "
                                + $"an empty database and restore into that. Nothing was changed."
                        )
                    );
            }
            await DataCopy
                .RunAsync(new SqliteEngine(verified.File, readOnly: true), engine, cancellation)
                .ConfigureAwait(false);
            return new(engine.Name.ToString(), null, verified.Check);
        }
        catch (Exception trouble) when (engine.Explain(trouble) is { } known)
        {
            throw known;
        }
        catch (Exception trouble) when (Mapping.BadCell.Is(trouble))
        {
            throw new StoreException(
                Phrase.Of(
                    $"A row of the backup cannot be read ({Phrase.Verbatim(trouble.Message.TrimEnd('.'))}), and {engine.Name} would "
                        + $"not take it; restore it to a folder, where it is left out. Nothing was changed."
                ),
                trouble
            );
        }
    }
}
