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
        await foreach (var line in UnreadableAsync(cancellation).ConfigureAwait(false))
            unreadable.Add(line);
        var (jobs, entries) = (0, 0);
        await foreach (var read in ReadAllAsync(null, cancellation).ConfigureAwait(false))
        {
            jobs++;
            try
            {
                var record = read();
                entries += record.Journal.All.Length;
                troubles.AddRange(Loose(record));
                if (more is not null)
                    troubles.AddRange(more(record));
                var line = (
                    await JobsAsync(new JobSearch { Before = record.Job.Number + 1, Most = 1 }, cancellation)
                        .ConfigureAwait(false)
                ).Jobs.FirstOrDefault();
                // Somebody may have written between the two readings: then both are asked again.
                if (
                    line != JobSummary.Of(record)
                    && !await AgreesAsync(record.Job.Number, cancellation).ConfigureAwait(false)
                )
                    troubles.Add($"Job {record.Job.Number}: the list of jobs says something else than its journal.");
            }
            catch (StoreException trouble)
            {
                unreadable.Add(trouble.Message);
            }
        }
        return new(cars, jobs, entries, [], unreadable.ToImmutable(), troubles.ToImmutable());
    }

    private async Task<bool> AgreesAsync(int number, CancellationToken cancellation)
    {
        for (var i = 0; i < 5; i++)
        {
            var line = (
                await JobsAsync(new JobSearch { Before = number + 1, Most = 1 }, cancellation).ConfigureAwait(false)
            ).Jobs.FirstOrDefault();
            if (
                await RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                && line == JobSummary.Of(record)
            )
                return true;
        }
        return false;
    }

    /// <summary>Cars that no job reads.</summary>
    private async IAsyncEnumerable<string> UnreadableAsync(
        [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancellation
    )
    {
        var rows = await Guarded(
                database =>
                    database
                        .Cars.AsNoTracking()
                        .Where(car => !database.Jobs.Any(job => job.CarId == car.Id))
                        .ToListAsync(cancellation),
                cancellation
            )
            .ConfigureAwait(false);
        foreach (var row in rows)
        {
            string? trouble = null;
            try
            {
                _ = RowText.Car(row);
            }
            catch (StoreException unreadable)
            {
                trouble = unreadable.Message;
            }
            if (trouble is not null)
                yield return trouble;
        }
    }

    private static IEnumerable<string> Loose(JobRecord record) =>
        record
            .Journal.All.Where(entry => entry.Supersedes is { } old && record.Journal.Find(old) is null)
            .Select(entry =>
                $"Job {record.Job.Number}: the entry {entry.Id} corrects or strikes the entry {entry.Supersedes}, which is not there."
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
        var part = file + ".part";
        try
        {
            if (Path.GetDirectoryName(Path.GetFullPath(file)) is { } folder)
                Directory.CreateDirectory(folder);
            File.Delete(part);
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
