using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Journals;
using Tightcold.Storage.Engines;
using Tightcold.Storage.Mapping;
using Tightcold.Storage.Safety;

namespace Tightcold.Storage;

public sealed partial class JobStore
{
    /// <summary>Reads everything again: the database's own check, rows that belong to nothing, every journal, the list
    /// of jobs against the journals, and whatever <paramref name="more"/> asks of a record.</summary>
    public async Task<CheckReport> CheckAsync(
        Func<JobRecord, IEnumerable<string>>? more,
        CancellationToken cancellation
    )
    {
        var damage = await Guarded(database => engine.DamageAsync(database, cancellation), cancellation)
            .ConfigureAwait(false);
        // Where pages are broken, reading on would only say so again in other words.
        if (damage.Count > 0)
            return new(0, 0, 0, [.. damage], [], []);
        var unreadable = ImmutableArray.CreateBuilder<string>();
        var troubles = ImmutableArray.CreateBuilder<string>();
        var cars = await Guarded(database => database.Cars.CountAsync(cancellation), cancellation)
            .ConfigureAwait(false);
        troubles.AddRange(
            await Guarded(database => OrphansAsync(database, cancellation), cancellation).ConfigureAwait(false)
        );
        foreach (var check in new[] { CarsWithoutJobsAsync, KitsCheckAsync, PhotosCheckAsync })
            try
            {
                var (found, changed) = await Guarded(database => check(database, cancellation), cancellation)
                    .ConfigureAwait(false);
                unreadable.AddRange(found);
                troubles.AddRange(changed);
            }
            catch (StoreException trouble) when (trouble.Trouble == StoreTrouble.Other)
            {
                unreadable.Add(trouble.Message);
            }
        var (jobs, entries) = (0, 0);
        await foreach (var part in PartsAsync(null, cancellation).ConfigureAwait(false))
        {
            // Reading a journal and adding up its ledger is work for every core; the order stays.
            var judged = part.AsParallel().AsOrdered().WithCancellation(cancellation).Select(rows => Judge(rows, more));
            foreach (var (count, cannot, found) in judged)
            {
                jobs++;
                entries += count;
                if (cannot is not null)
                    unreadable.Add(cannot);
                troubles.AddRange(found);
            }
        }
        return new(cars, jobs, entries, [], [.. unreadable.Distinct()], [.. troubles.Distinct()]);
    }

    /// <summary>One job: whether it reads, is as it was written, and agrees with the list.</summary>
    private static (int Entries, string? Unreadable, List<string> Troubles) Judge(
        JobRows rows,
        Func<JobRecord, IEnumerable<string>>? more
    )
    {
        var troubles = new List<string>();
        if (
            rows.Job is { } job && !RowSum.Fits(job.Digest, RowSum.Of(job))
            || rows.Brought.Any(kit => !RowSum.Fits(kit.Digest, RowSum.Of(kit)))
        )
            troubles.Add($"Job {rows.Number}: its opening or its kit is not as it was written down.");
        if (rows.Car is { } car && !RowSum.Fits(car.Digest, RowSum.Of(car)))
            troubles.Add($"The car {car.Id} (job {rows.Number}) is not as it was written down.");
        try
        {
            var record = Record(rows);
            troubles.AddRange(Loose(record));
            troubles.AddRange(Unchained(record));
            if (more is not null)
                troubles.AddRange(more(record));
            if (
                rows.Line is not { } line
                || JobLines.Summary(line) != JobSummary.Of(record)
                || line.SearchKey != JobLines.Key(line)
            )
                troubles.Add($"Job {record.Job.Number}: the list of jobs says something else than its journal.");
            return (record.Journal.All.Length, null, troubles);
        }
        catch (StoreException trouble)
        {
            return (0, trouble.Message, troubles);
        }
    }

    private static IEnumerable<string> Unchained(JobRecord record)
    {
        if (record.Chain.Length < record.Journal.All.Length)
            yield return $"Job {record.Job.Number}: entries are there without their digests, so it cannot be told "
                + $"whether they are as they were written down.";
        else if (JournalChain.Broken(record) is { } broken)
        {
            var entry = record.Journal.Find(broken.Entry);
            yield return $"Job {record.Job.Number}: the chain of its journal breaks at the entry {broken.Entry} "
                + $"({entry?.Kind}): it, one before it or the job's opening is not as it was written down.";
        }
    }

    /// <summary>Cars that no job reads.</summary>
    private static async Task<(List<string> Unreadable, List<string> Changed)> CarsWithoutJobsAsync(
        JournalDatabase database,
        CancellationToken cancellation
    )
    {
        var (unreadable, changed) = (new List<string>(), new List<string>());
        foreach (
            var row in await database
                .Cars.AsNoTracking()
                .Where(car => !database.Jobs.Any(job => job.CarId == car.Id))
                .ToListAsync(cancellation)
                .ConfigureAwait(false)
        )
        {
            if (!RowSum.Fits(row.Digest, RowSum.Of(row)))
                changed.Add($"The car {row.Id} is not as it was written down.");
            try
            {
                _ = RowText.Car(row);
            }
            catch (StoreException trouble)
            {
                unreadable.Add(trouble.Message);
            }
        }
        return (unreadable, changed);
    }

    private static async Task<(List<string> Unreadable, List<string> Changed)> KitsCheckAsync(
        JournalDatabase database,
        CancellationToken cancellation
    )
    {
        var (unreadable, changed) = (new List<string>(), new List<string>());
        List<KitRow> rows;
        try
        {
            rows = await database.Kits.AsNoTracking().ToListAsync(cancellation).ConfigureAwait(false);
        }
        catch (Exception trouble) when (BadCell.Is(trouble))
        {
            return ([$"A version of the kit has a damaged time or id ({trouble.Message.TrimEnd('.')})."], changed);
        }
        foreach (var row in rows)
        {
            if (!RowSum.Fits(row.Digest, RowSum.Of(row)))
                changed.Add($"The kit {row.Id} is not as it was written down.");
            try
            {
                _ = RowText.Kit(row.BodyJson, row.Id);
            }
            catch (StoreException trouble)
            {
                unreadable.Add(trouble.Message);
            }
        }
        return (unreadable, changed);
    }

    private static IEnumerable<string> Loose(JobRecord record) =>
        record
            .Journal.All.Where(entry => entry.Supersedes is { } old && record.Journal.Find(old) is null)
            .Select(entry =>
                $"Job {record.Job.Number}: the entry {entry.Id} corrects or strikes the entry {entry.Supersedes}, "
                + $"which is not there."
            );

    private static async Task<IReadOnlyList<string>> OrphansAsync(
        JournalDatabase database,
        CancellationToken cancellation
    )
    {
        var found = new List<string>();
        async Task CountAsync<T>(IQueryable<T> rows, string what)
        {
            if (await rows.CountAsync(cancellation).ConfigureAwait(false) is > 0 and var count)
                found.Add($"{what}: {count}.");
        }
        await CountAsync(
                database.Jobs.Where(job => !database.Cars.Any(car => car.Id == job.CarId)),
                "Jobs without a car"
            )
            .ConfigureAwait(false);
        await CountAsync(
                database.Entries.Where(entry => !database.Jobs.Any(job => job.Id == entry.JobId)),
                "Entries without a job"
            )
            .ConfigureAwait(false);
        await CountAsync(
                database.Photos.Where(photo =>
                    !database.Entries.Any(entry => entry.Id == photo.EntryId && entry.JobId == photo.JobId)
                ),
                "Photos without an entry"
            )
            .ConfigureAwait(false);
        await CountAsync(
                database.JobKits.Where(kit => !database.Jobs.Any(job => job.Id == kit.JobId)),
                "Kits without a job"
            )
            .ConfigureAwait(false);
        await CountAsync(
                database.JobLines.Where(line => !database.Jobs.Any(job => job.Id == line.JobId)),
                "Lines of the list without a job"
            )
            .ConfigureAwait(false);
        await CountAsync(
                database.Jobs.Where(job => !database.JobLines.Any(line => line.JobId == job.Id)),
                "Jobs that the list leaves out"
            )
            .ConfigureAwait(false);
        await CountAsync(
                database
                    .Entries.GroupBy(entry => entry.JobId)
                    .Where(group =>
                        group.Max(entry => entry.Sequence) != group.Count() || group.Min(entry => entry.Sequence) != 1
                    )
                    .Select(group => group.Key),
                "Journals whose entries are not numbered one after the other"
            )
            .ConfigureAwait(false);
        return found;
    }

    /// <summary>A copy of everything as one data file, of one moment, while others write; read again before it
    /// counts.</summary>
    /// <param name="file">Must not be there yet.</param>
    public async Task<BackupReport> BackupAsync(
        string file,
        Func<JobRecord, IEnumerable<string>>? more,
        CancellationToken cancellation
    )
    {
        var part = file + Leftovers.Part;
        try
        {
            if (Path.GetDirectoryName(Path.GetFullPath(file)) is { } folder)
                Directory.CreateDirectory(folder);
            File.Delete(part);
            PrivateFile.Make(part);
            await engine.CopyToAsync(part, cancellation).ConfigureAwait(false);
            DataCopy.ToDisk(part);
            using var copy = new JobStore(new SqliteEngine(part, readOnly: true));
            var check = await copy.CheckAsync(more, cancellation).ConfigureAwait(false);
            if (check.Damage.Length > 0)
                throw new StoreException(
                    $"The copy is not sound ({check.Damage[0]}) It was taken away again; {Name} is as it was."
                );
            copy.Dispose();
            File.Move(part, file, overwrite: false);
            return new(file, new FileInfo(file).Length, check);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            throw new StoreException(
                $"The backup {file} cannot be written ({trouble.Message}); {Name} is as it was.",
                trouble
            );
        }
        catch (Exception trouble) when (BadCell.Is(trouble))
        {
            throw new StoreException(
                $"The backup {file} could not be finished, and {Name} is as it was: a row cannot be read "
                    + $"({trouble.Message.TrimEnd('.')}); tightcold check names it.",
                trouble
            );
        }
        catch (Exception trouble) when (engine.Explain(trouble) is { } known)
        {
            throw new StoreException(
                $"The backup {file} could not be finished, and {Name} is as it was. {known.Message}",
                trouble
            );
        }
        finally
        {
            DeleteQuietly(part);
        }
    }

    private static void DeleteQuietly(string file)
    {
        try
        {
            File.Delete(file);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            // A leftover part is overwritten by the next backup of that name.
        }
    }
}
