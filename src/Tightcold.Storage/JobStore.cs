using System.Collections.Immutable;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage;

/// <summary>Cars, kits, jobs and entries in one SQLite file. Safe to use from several threads and programs at once.
/// Trouble with the file comes as <see cref="StoreException"/>.</summary>
public sealed class JobStore : IJobStore
{
    private readonly DbContextOptions<JournalDatabase> options;

    private JobStore(string path)
    {
        FilePath = path;
        options = Options(path);
    }

    public string FilePath { get; }

    /// <summary>Opens the data file in <paramref name="folder"/>, makes it if there is none, and brings an older one
    /// up to date. A file from a newer version is refused and left untouched.</summary>
    public static async Task<JobStore> OpenAsync(string folder, CancellationToken cancellation = default)
    {
        var path = DataFolder.DataFile(folder);
        try
        {
            // Names and places are the person's own: a new folder is open to nobody else.
            if (OperatingSystem.IsWindows()) Directory.CreateDirectory(folder);
            else Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            throw new StoreException($"The data folder {folder} cannot be made; choose another with --data.", trouble);
        }
        var store = new JobStore(path);
        await store.Guarded(async database =>
        {
            await Schema.BringUpToDateAsync(database, path, cancellation).ConfigureAwait(false);
            return true;
        }).ConfigureAwait(false);
        return store;
    }

    /// <summary>Lets go of all data files that no task uses at the moment, so that they can be moved or deleted.</summary>
    public static void Release() => SqliteConnection.ClearAllPools();

    public Task<IReadOnlyList<Car>> CarsAsync(CancellationToken cancellation) => Guarded<IReadOnlyList<Car>>(async database =>
        [.. (await database.Cars.AsNoTracking().ToListAsync(cancellation).ConfigureAwait(false)).Select(RowText.Car).OrderBy(car => car.Label, StringComparer.Ordinal).ThenBy(car => car.Id)]);

    public Task<Car?> CarAsync(Guid id, CancellationToken cancellation) => Guarded(async database =>
        await database.Cars.AsNoTracking().FirstOrDefaultAsync(car => car.Id == id, cancellation).ConfigureAwait(false) is { } row ? RowText.Car(row) : null);

    public Task SaveCarAsync(Car car, CancellationToken cancellation) => Guarded(async database =>
    {
        var row = RowText.Row(car);
        var known = await database.Cars.AnyAsync(there => there.Id == car.Id, cancellation).ConfigureAwait(false);
        if (known) database.Cars.Update(row);
        else database.Cars.Add(row);
        return await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
    });

    public Task<IReadOnlyList<Kit>> KitsAsync(CancellationToken cancellation) => Guarded<IReadOnlyList<Kit>>(async database =>
        await OwnKitsAsync(database, cancellation).ConfigureAwait(false));

    public Task AddKitAsync(Kit kit, CancellationToken cancellation) => Guarded(async database =>
    {
        if (await database.Kits.AnyAsync(there => there.Id == kit.Id, cancellation).ConfigureAwait(false)) return 0;
        database.Kits.Add(new KitRow { Id = kit.Id, FromTime = kit.From, BodyJson = RowText.Body(kit) });
        return await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
    });

    public Task<IReadOnlyList<Job>> JobsAsync(CancellationToken cancellation) => Guarded<IReadOnlyList<Job>>(async database =>
        [.. (await database.Jobs.AsNoTracking().OrderByDescending(job => job.Number).ToListAsync(cancellation).ConfigureAwait(false)).Select(RowText.Job)]);

    public Task<JobRecord?> RecordAsync(int number, CancellationToken cancellation) => Guarded(async database =>
    {
        // One read transaction, so that car, kits and entries are of one moment; deferred, so that no writer waits.
        await database.Database.OpenConnectionAsync(cancellation).ConfigureAwait(false);
        var transaction = ((SqliteConnection)database.Database.GetDbConnection()).BeginTransaction(deferred: true);
        await using (transaction.ConfigureAwait(false))
        {
            await database.Database.UseTransactionAsync(transaction, cancellation).ConfigureAwait(false);
            if (await database.Jobs.AsNoTracking().FirstOrDefaultAsync(job => job.Number == number, cancellation).ConfigureAwait(false) is not { } row) return null;
            var car = await database.Cars.AsNoTracking().FirstAsync(there => there.Id == row.CarId, cancellation).ConfigureAwait(false);
            var entries = await database.Entries.AsNoTracking().Where(entry => entry.JobId == row.Id).ToListAsync(cancellation).ConfigureAwait(false);
            var kits = await KitsOfAsync(database, row, cancellation).ConfigureAwait(false);
            var (journal, problems) = Journal.Create(entries.Select(RowText.Entry));
            return journal is null
                ? throw new StoreException($"The journal of job {row.Number} in {FilePath} contradicts itself ({problems[0].Sentence}) Nothing was changed.")
                : new JobRecord(RowText.Car(car), kits, RowText.Job(row), journal);
        }
    });

    public Task<Job> AddJobAsync(Job job, CancellationToken cancellation) => Writing(async database =>
    {
        var numbered = job with { Number = await NextNumberAsync(database, cancellation).ConfigureAwait(false) };
        database.Jobs.Add(RowText.Row(numbered, kitsSince: null));
        return numbered;
    }, cancellation);

    public Task AddEntriesAsync(Guid jobId, IReadOnlyCollection<Entry> entries, CancellationToken cancellation) => Writing(async database =>
    {
        await AddMissingAsync(database, jobId, entries, cancellation).ConfigureAwait(false);
        return true;
    }, cancellation);

    public Task<Job> MergeAsync(JobRecord record, CancellationToken cancellation) => Writing(async database =>
    {
        if (!await database.Cars.AnyAsync(car => car.Id == record.Car.Id, cancellation).ConfigureAwait(false))
            database.Cars.Add(RowText.Row(record.Car));
        var row = await database.Jobs.FirstOrDefaultAsync(job => job.Id == record.Job.Id, cancellation).ConfigureAwait(false);
        var own = await OwnKitsAsync(database, cancellation).ConfigureAwait(false);
        if (row is null)
        {
            var taken = record.Job.Number < 1 || await database.Jobs.AnyAsync(job => job.Number == record.Job.Number, cancellation).ConfigureAwait(false);
            var number = taken ? await NextNumberAsync(database, cancellation).ConfigureAwait(false) : record.Job.Number;
            var same = own.Select(kit => kit.Id).ToHashSet().SetEquals(record.Kits.Select(kit => kit.Id));
            row = RowText.Row(record.Job with { Number = number }, same ? null : Newest(own));
            database.Jobs.Add(row);
            if (!same) AddKits(database, row.Id, record.Kits);
        }
        else
        {
            var known = await KitsOfAsync(database, row, cancellation).ConfigureAwait(false);
            var missing = record.Kits.Where(kit => known.All(there => there.Id != kit.Id)).ToImmutableArray();
            if (missing.Length > 0 && row.KitsSince is null)
            {
                row.KitsSince = Newest(own);
                AddKits(database, row.Id, known);
            }
            AddKits(database, row.Id, missing);
        }
        await AddMissingAsync(database, row.Id, record.Journal.All, cancellation).ConfigureAwait(false);
        return RowText.Job(row);
    }, cancellation);

    private static DateTimeOffset Newest(ImmutableArray<Kit> own) => own.Length == 0 ? DateTimeOffset.MinValue : own.Max(kit => kit.From);

    private static void AddKits(JournalDatabase database, Guid jobId, IEnumerable<Kit> kits) =>
        database.JobKits.AddRange(kits.Select(kit => new JobKitRow { JobId = jobId, KitId = kit.Id, BodyJson = RowText.Body(kit) }));

    private static async Task<ImmutableArray<Kit>> OwnKitsAsync(JournalDatabase database, CancellationToken cancellation) =>
        [.. (await database.Kits.AsNoTracking().ToListAsync(cancellation).ConfigureAwait(false)).Select(row => RowText.Kit(row.BodyJson, row.Id)).OrderBy(kit => kit.From).ThenBy(kit => kit.Id)];

    private static async Task<ImmutableArray<Kit>> KitsOfAsync(JournalDatabase database, JobRow job, CancellationToken cancellation)
    {
        var own = await OwnKitsAsync(database, cancellation).ConfigureAwait(false);
        if (job.KitsSince is not { } since) return own;
        var brought = await database.JobKits.AsNoTracking().Where(kit => kit.JobId == job.Id).ToListAsync(cancellation).ConfigureAwait(false);
        return [.. brought.Select(row => RowText.Kit(row.BodyJson, row.KitId)).Concat(own.Where(kit => kit.From > since)).DistinctBy(kit => kit.Id)
            .OrderBy(kit => kit.From).ThenBy(kit => kit.Id)];
    }

    private static async Task<int> NextNumberAsync(JournalDatabase database, CancellationToken cancellation) =>
        (await database.Jobs.MaxAsync(job => (int?)job.Number, cancellation).ConfigureAwait(false) ?? 0) + 1;

    private static async Task AddMissingAsync(JournalDatabase database, Guid jobId, IReadOnlyCollection<Entry> entries, CancellationToken cancellation)
    {
        var ids = entries.Select(entry => entry.Id).ToHashSet();
        var there = await database.Entries.AsNoTracking().Where(entry => ids.Contains(entry.Id)).ToListAsync(cancellation).ConfigureAwait(false);
        foreach (var entry in entries)
        {
            var old = there.FirstOrDefault(row => row.Id == entry.Id);
            if (old is null) database.Entries.Add(RowText.Row(jobId, entry));
            else if (old.JobId != jobId || RowText.Entry(old) != entry)
                throw new StoreException($"Another entry with the id {entry.Id} is in the data file already; nothing was added.");
        }
    }

    private Task<T> Writing<T>(Func<JournalDatabase, Task<T>> work, CancellationToken cancellation) => Guarded(async database =>
    {
        // SQLite takes the write lock at the begin, so that two writers queue instead of failing in the middle.
        var transaction = await database.Database.BeginTransactionAsync(cancellation).ConfigureAwait(false);
        await using (transaction.ConfigureAwait(false))
        {
            var result = await work(database).ConfigureAwait(false);
            await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
            await transaction.CommitAsync(cancellation).ConfigureAwait(false);
            return result;
        }
    });

    private async Task<T> Guarded<T>(Func<JournalDatabase, Task<T>> work)
    {
        try
        {
            var database = new JournalDatabase(options);
            await using (database.ConfigureAwait(false))
            {
                return await work(database).ConfigureAwait(false);
            }
        }
        catch (SqliteException trouble)
        {
            throw StoreException.From(trouble, FilePath);
        }
        catch (DbUpdateException trouble) when (trouble.InnerException is SqliteException inner)
        {
            throw StoreException.From(inner, FilePath);
        }
    }

    private static DbContextOptions<JournalDatabase> Options(string path) => new DbContextOptionsBuilder<JournalDatabase>()
        .UseSqlite(new SqliteConnectionStringBuilder { DataSource = path, ForeignKeys = true, DefaultTimeout = 30 }.ToString())
        .AddInterceptors(SafeConnection.Instance).Options;
}
