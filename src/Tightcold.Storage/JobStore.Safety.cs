using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
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
        var unreadable = ImmutableArray.CreateBuilder<Phrase>();
        var troubles = ImmutableArray.CreateBuilder<Phrase>();
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
                unreadable.Add(trouble.Says);
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
    private static (int Entries, Phrase? Unreadable, List<Phrase> Troubles) Judge(
        JobRows rows,
        Func<JobRecord, IEnumerable<string>>? more
    )
    {
        var troubles = new List<Phrase>();
        if (
            rows.Job is { } job && !RowSum.Fits(job.Digest, RowSum.Of(job))
            || rows.Brought.Any(kit => !RowSum.Fits(kit.Digest, RowSum.Of(kit)))
        )
            troubles.Add(Phrase.Of($"Job {rows.Number}: its opening or its kit is not as it was written down."));
        if (rows.Car is { } car && !RowSum.Fits(car.Digest, RowSum.Of(car)))
            troubles.Add(Phrase.Of($"The car {car.Id.ToString()} (job {rows.Number}) is not as it was written down."));
        try
        {
            var record = Record(rows);
            troubles.AddRange(Loose(record));
            troubles.AddRange(Unchained(record));
            if (more is not null)
                troubles.AddRange(more(record).Select(Phrase.Verbatim));
            if (
                rows.Line is not { } line
                || JobLines.Summary(line) != JobSummary.Of(record)
                || line.SearchKey != JobLines.Key(line)
            )
                troubles.Add(
                    Phrase.Of($"Job {record.Job.Number}: the list of jobs says something else than its journal.")
                );
            return (record.Journal.All.Length, null, troubles);
        }
        catch (StoreException trouble)
        {
            return (0, trouble.Says, troubles);
        }
    }

    private static IEnumerable<Phrase> Unchained(JobRecord record)
    {
        if (record.Chain.Length < record.Journal.All.Length)
            yield return Phrase.Of(
                $"Job {record.Job.Number}: entries are there without their digests, so it cannot be told "
                    + $"whether they are as they were written down."
            );
        else if (JournalChain.Broken(record) is { } broken)
        {
            var entry = record.Journal.Find(broken.Entry);
            yield return Phrase.Of(
                $"Job {record.Job.Number}: the chain of its journal breaks at the entry {broken.Entry.ToString()} "
                    + $"({Phrase.Verbatim(entry?.Kind ?? "")}): it, one before it or the job's opening is not as it was written down."
            );
        }
    }

    /// <summary>Cars that no job reads.</summary>
    private static async Task<(List<Phrase> Unreadable, List<Phrase> Changed)> CarsWithoutJobsAsync(
        JournalDatabase database,
        CancellationToken cancellation
    )
    {
        var (unreadable, changed) = (new List<Phrase>(), new List<Phrase>());
        foreach (
            var row in await database
                .Cars.AsNoTracking()
                .Where(car => !database.Jobs.Any(job => job.CarId == car.Id))
                .ToListAsync(cancellation)
                .ConfigureAwait(false)
        )
        {
            if (!RowSum.Fits(row.Digest, RowSum.Of(row)))
                changed.Add(Phrase.Of($"The car {row.Id.ToString()} is not as it was written down."));
            try
            {
                _ = RowText.Car(row);
            }
            catch (StoreException trouble)
            {
                unreadable.Add(trouble.Says);
            }
        }
        return (unreadable, changed);
    }

    private static async Task<(List<Phrase> Unreadable, List<Phrase> Changed)> KitsCheckAsync(
        JournalDatabase database,
        CancellationToken cancellation
    )
    {
        var (unreadable, changed) = (new List<Phrase>(), new List<Phrase>());
        List<KitRow> rows;
        try
        {
            rows = await database.Kits.AsNoTracking().ToListAsync(cancellation).ConfigureAwait(false);
        }
        catch (Exception trouble) when (BadCell.Is(trouble))
        {
            return (
                [
                    Phrase.Of(
                        $"A version of the kit has a damaged time or id ({Phrase.Verbatim(trouble.Message.TrimEnd('.'))})."
                    ),
                ],
                changed
            );
        }
        foreach (var row in rows)
        {
            if (!RowSum.Fits(row.Digest, RowSum.Of(row)))
                changed.Add(Phrase.Of($"The kit {row.Id.ToString()} is not as it was written down."));
            try
            {
                _ = RowText.Kit(row.BodyJson, row.Id);
            }
            catch (StoreException trouble)
            {
                unreadable.Add(trouble.Says);
            }
        }
        return (unreadable, changed);
    }

    private static IEnumerable<Phrase> Loose(JobRecord record) =>
        record
            .Journal.All.Where(entry => entry.Supersedes is { } old && record.Journal.Find(old) is null)
            .Select(entry =>
                Phrase.Of(
                    $"Job {record.Job.Number}: the entry {entry.Id.ToString()} corrects or strikes the entry "
                        + $"{entry.Supersedes.ToString() ?? ""}, which is not there."
                )
            );

    private static async Task<IReadOnlyList<Phrase>> OrphansAsync(
        JournalDatabase database,
        CancellationToken cancellation
    )
    {
        var found = new List<Phrase>();
        async Task CountAsync<T>(IQueryable<T> rows, [Said] string what)
        {
            if (await rows.CountAsync(cancellation).ConfigureAwait(false) is > 0 and var count)
                found.Add(Phrase.Of($"{what}: {count}."));
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
                    Phrase.Of(
                        $"The copy is not sound ({check.Damage[0]}) It was taken away again; {Name} is as it was."
                    )
                );
            copy.Dispose();
            File.Move(part, file, overwrite: false);
            return new(file, new FileInfo(file).Length, check);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            throw new StoreException(
                Phrase.Of(
                    $"The backup {Phrase.Verbatim(file)} cannot be written ({Phrase.Verbatim(trouble.Message)}); {Name} is as it was."
                ),
                trouble
            );
        }
        catch (Exception trouble) when (BadCell.Is(trouble))
        {
            throw new StoreException(
                Phrase.Of(
                    $"The backup {Phrase.Verbatim(file)} could not be finished, and {Name} is as it was: a row cannot be read "
                        + $"({Phrase.Verbatim(trouble.Message.TrimEnd('.'))}); tightcold check names it."
                ),
                trouble
            );
        }
        catch (Exception trouble) when (engine.Explain(trouble) is { } known)
        {
            throw new StoreException(
                Phrase.Of(
                    $"The backup {Phrase.Verbatim(file)} could not be finished, and {Name} is as it was. {known.Says}"
                ),
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
