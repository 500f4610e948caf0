using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Exchange;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage;

public sealed partial class JobStore
{
    public Task SaveCarAsync(Car car, CancellationToken cancellation) =>
        Writing(
            async database =>
            {
                if (await database.Cars.AnyAsync(there => there.Id == car.Id, cancellation).ConfigureAwait(false))
                    await ChangeAsync(database, car, cancellation).ConfigureAwait(false);
                else
                    database.Cars.Add(RowText.Row(car));
                return true;
            },
            cancellation
        );

    public Task MergeCarAsync(Car car, CancellationToken cancellation) =>
        Writing(
            database => MergeAsync(database, car, CarVersion.Supersedes, cancellation),
            cancellation
        );

    /// <param name="holds">Whether the first of two versions takes the place of the second.</param>
    private static async Task<bool> MergeAsync(
        JournalDatabase database,
        Car car,
        Func<Car, Car, bool> holds,
        CancellationToken cancellation
    )
    {
        if (
            await database
                .Cars.AsNoTracking()
                .FirstOrDefaultAsync(there => there.Id == car.Id, cancellation)
                .ConfigureAwait(false)
            is not { } row
        )
            database.Cars.Add(RowText.Row(car));
        else if (holds(car, RowText.Car(row)))
            await ChangeAsync(database, car, cancellation).ConfigureAwait(false);
        else
            return false;
        await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
        return true;
    }

    /// <summary>A car that is there, and its name in the lines of its jobs.</summary>
    private static async Task ChangeAsync(JournalDatabase database, Car car, CancellationToken cancellation)
    {
        database.Cars.Update(RowText.Row(car));
        foreach (
            var line in await database
                .JobLines.Where(line => line.CarId == car.Id)
                .ToListAsync(cancellation)
                .ConfigureAwait(false)
        )
            JobLines.Name(line, car.Label);
    }

    public Task AddKitAsync(Kit kit, CancellationToken cancellation) =>
        Writing(
            async database =>
            {
                if (await database.Kits.AnyAsync(there => there.Id == kit.Id, cancellation).ConfigureAwait(false))
                    return false;
                database.Kits.Add(RowText.Row(kit));
                return true;
            },
            cancellation
        );

    public Task<Job> AddJobAsync(Job job, CancellationToken cancellation) =>
        Writing(
            async database =>
            {
                await engine.LockNumbersAsync(database, cancellation).ConfigureAwait(false);
                // The same job sent again, after an answer that got lost.
                if (
                    await database
                        .Jobs.AsNoTracking()
                        .FirstOrDefaultAsync(there => there.Id == job.Id, cancellation)
                        .ConfigureAwait(false) is
                    { } row
                )
                    return RowText.Job(row);
                var numbered = job with
                {
                    Number = await NextNumberAsync(database, cancellation).ConfigureAwait(false),
                };
                await AddAsync(database, RowText.Row(numbered, kitsSince: null), cancellation).ConfigureAwait(false);
                return numbered;
            },
            cancellation
        );

    public Task AddEntriesAsync(Guid jobId, IReadOnlyCollection<Entry> entries, CancellationToken cancellation) =>
        Writing(
            async database =>
            {
                await engine.LockJobAsync(database, jobId, cancellation).ConfigureAwait(false);
                var line = await database
                    .JobLines.FirstOrDefaultAsync(there => there.JobId == jobId, cancellation)
                    .ConfigureAwait(false)
                    ?? throw new StoreException(
                        Phrase.Of($"The job {jobId.ToString()} is not in {Name}; nothing was added.")
                    );
                await AddMissingAsync(database, line, entries, cancellation).ConfigureAwait(false);
                return true;
            },
            cancellation
        );

    public Task<Job> MergeAsync(JobRecord record, CancellationToken cancellation) =>
        Writing(
            async database =>
            {
                await engine.LockNumbersAsync(database, cancellation).ConfigureAwait(false);
                await MergeAsync(database, record.Car, CarVersion.IsLater, cancellation).ConfigureAwait(false);
                await engine.LockJobAsync(database, record.Job.Id, cancellation).ConfigureAwait(false);
                var row = await database
                    .Jobs.FirstOrDefaultAsync(job => job.Id == record.Job.Id, cancellation)
                    .ConfigureAwait(false);
                var own = await OwnKitsAsync(database, cancellation).ConfigureAwait(false);
                if (row is null)
                {
                    var taken =
                        record.Job.Number < 1
                        || await database
                            .Jobs.AnyAsync(job => job.Number == record.Job.Number, cancellation)
                            .ConfigureAwait(false);
                    var number = taken
                        ? await NextNumberAsync(database, cancellation).ConfigureAwait(false)
                        : record.Job.Number;
                    var same = own.Select(kit => kit.Id).ToHashSet().SetEquals(record.Kits.Select(kit => kit.Id));
                    row = RowText.Row(record.Job with { Number = number }, same ? null : KitsOfJob.Since(own));
                    await AddAsync(database, row, cancellation).ConfigureAwait(false);
                    if (!same)
                        AddKits(database, row.Id, record.Kits);
                }
                else
                {
                    var known = await KitsOfAsync(database, row, cancellation).ConfigureAwait(false);
                    var missing = record.Kits.Where(kit => known.All(there => there.Id != kit.Id)).ToImmutableArray();
                    if (missing.Length > 0 && row.KitsSince is null)
                    {
                        row.KitsSince = KitsOfJob.Since(own);
                        row.Digest = RowSum.Of(row);
                        AddKits(database, row.Id, known);
                    }
                    AddKits(database, row.Id, missing);
                }
                await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
                var line = await database
                    .JobLines.FirstAsync(there => there.JobId == row.Id, cancellation)
                    .ConfigureAwait(false);
                await AddMissingAsync(database, line, record.InArrival, cancellation).ConfigureAwait(false);
                await AddPhotosAsync(database, row.Id, record.Photos, cancellation).ConfigureAwait(false);
                return RowText.Job(row);
            },
            cancellation
        );

    private static async Task AddAsync(JournalDatabase database, JobRow row, CancellationToken cancellation)
    {
        var car = await database
            .Cars.AsNoTracking()
            .FirstOrDefaultAsync(there => there.Id == row.CarId, cancellation)
            .ConfigureAwait(false)
            ?? throw new StoreException(Phrase.Of($"The car {row.CarId.ToString()} is not there; no job was added."));
        database.Jobs.Add(row);
        database.JobLines.Add(JobLines.New(row, RowText.Car(car).Label));
    }

    private static void AddKits(JournalDatabase database, Guid jobId, IEnumerable<Kit> kits) =>
        database.JobKits.AddRange(kits.Select(kit => RowText.Row(jobId, kit)));

    private static async Task<int> NextNumberAsync(JournalDatabase database, CancellationToken cancellation) =>
        (await database.Jobs.MaxAsync(job => (int?)job.Number, cancellation).ConfigureAwait(false) ?? 0) + 1;

    /// <summary>Adds what is not there yet behind the last entry written, and brings the line of the job up to
    /// date.</summary>
    private async Task AddMissingAsync(
        JournalDatabase database,
        JobLineRow line,
        IReadOnlyCollection<Entry> entries,
        CancellationToken cancellation
    )
    {
        var ids = entries.Select(entry => entry.Id).ToHashSet();
        var there = await database
            .Entries.AsNoTracking()
            .Where(entry => ids.Contains(entry.Id))
            .ToDictionaryAsync(entry => entry.Id, cancellation)
            .ConfigureAwait(false);
        var sequence = line.Entries;
        var digest = await LastDigestAsync(database, line, cancellation).ConfigureAwait(false);
        foreach (var entry in entries)
        {
            if (!there.TryGetValue(entry.Id, out var old))
            {
                var row = RowText.Row(line.JobId, entry);
                row.Sequence = ++sequence;
                row.Digest = digest = JournalChain.Next(digest, entry);
                database.Entries.Add(row);
            }
            else if (old.JobId != line.JobId || RowText.Entry(old) != entry)
            {
                throw new StoreException(
                    Phrase.Of(
                        $"Another entry with the id {entry.Id.ToString()} is in {Name} already; nothing was added."
                    )
                );
            }
        }
        if (sequence == line.Entries)
            return;
        await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
        await JobLines.RefreshAsync(database, line, cancellation).ConfigureAwait(false);
    }

    /// <summary>What the next link of the job's chain stands on.</summary>
    private static async Task<string> LastDigestAsync(
        JournalDatabase database,
        JobLineRow line,
        CancellationToken cancellation
    ) =>
        await database
            .Entries.AsNoTracking()
            .Where(entry => entry.JobId == line.JobId)
            .OrderByDescending(entry => entry.Sequence)
            .Select(entry => entry.Digest)
            .FirstOrDefaultAsync(cancellation)
            .ConfigureAwait(false)
        ?? JournalChain.Start(
            RowText.Job(
                await database
                    .Jobs.AsNoTracking()
                    .FirstAsync(job => job.Id == line.JobId, cancellation)
                    .ConfigureAwait(false)
            )
        );

    /// <summary>One transaction, all or nothing, in turn.</summary>
    private async Task<T> Writing<T>(Func<JournalDatabase, Task<T>> work, CancellationToken cancellation)
    {
        using var turn = await engine.TurnAsync(cancellation).ConfigureAwait(false);
        return await Guarded(
                turn,
                async database =>
                {
                    // SQLite takes the write lock at the begin, so that two writers queue instead of failing in the
                    // middle.
                    var transaction = await database.Database.BeginTransactionAsync(cancellation).ConfigureAwait(false);
                    await using (transaction.ConfigureAwait(false))
                    {
                        var result = await work(database).ConfigureAwait(false);
                        await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
                        await transaction.CommitAsync(cancellation).ConfigureAwait(false);
                        return result;
                    }
                },
                cancellation
            )
            .ConfigureAwait(false);
    }
}
