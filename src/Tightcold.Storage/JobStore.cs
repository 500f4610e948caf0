using System.Collections.Immutable;
using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;
using Tightcold.Storage.Engines;
using Tightcold.Storage.Mapping;
using Tightcold.Storage.Safety;

namespace Tightcold.Storage;

/// <summary>Cars, kits, jobs and entries, in one SQLite file or on a PostgreSQL server. Safe to use from several
/// threads and programs at once. Trouble with the data comes as <see cref="StoreException"/>.</summary>
public sealed partial class JobStore : IJobStore, IDisposable
{
    /// <summary>Who met others in the way tries again for this long. Each round one of them gets through.</summary>
    private static readonly TimeSpan Persistence = TimeSpan.FromSeconds(5);

    private readonly Engine engine;

    private readonly Action? closed;

    /// <param name="closed">What is to be taken away at the end.</param>
    internal JobStore(Engine engine, Action? closed = null) => (this.engine, this.closed) = (engine, closed);

    /// <summary>How a sentence calls the data, such as "the data file …".</summary>
    public Phrase Name => engine.Name;

    /// <summary>Opens the data at a place as people write it: a folder, or a connection.</summary>
    public static Task<JobStore> OpenAsync(string data, CancellationToken cancellation = default) =>
        OpenAsync(DataPlace.Resolve(data), cancellation);

    /// <summary>Opens the data, makes them if there are none, and brings older ones up to date. Data of a newer version
    /// are refused and left untouched.</summary>
    public static async Task<JobStore> OpenAsync(DataPlace place, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(place);
        if (place.Connection is { } connection)
            return await PreparedAsync(new PostgresEngine(connection), cancellation).ConfigureAwait(false);
        try
        {
            return await PreparedAsync(
                    await FileAsync(place.Folder, "", cancellation).ConfigureAwait(false),
                    cancellation
                )
                .ConfigureAwait(false);
        }
        catch (StoreException trouble) when (ReadOnlyMedia.IsCause(trouble, place.Folder))
        {
            return await ReadOnlyMedia.OpenAsync(place.Folder, cancellation).ConfigureAwait(false);
        }
    }

    /// <summary>A data file, with what a test adds to every connection.</summary>
    internal static async Task<SqliteEngine> FileAsync(string folder, string pragmas, CancellationToken cancellation)
    {
        DataFolder.Make(folder);
        Leftovers.Clean(folder);
        PrivateFile.Make(DataFolder.DataFile(folder));
        return new SqliteEngine(
            DataFolder.DataFile(folder),
            await FileLock.UseAsync(folder, cancellation).ConfigureAwait(false),
            pragmas: pragmas
        );
    }

    internal static async Task<JobStore> PreparedAsync(Engine engine, CancellationToken cancellation)
    {
        var store = new JobStore(engine);
        try
        {
            await engine.PrepareAsync(cancellation).ConfigureAwait(false);
            return store;
        }
        catch (Exception trouble)
        {
            store.Dispose();
            if (engine.Explain(trouble) is { } explained)
                throw explained;
            throw;
        }
    }

    /// <summary>Lets go of all data that no task uses at the moment, so that files can be moved or deleted.</summary>
    public static void Release()
    {
        SqliteEngine.ReleaseAll();
        Npgsql.NpgsqlConnection.ClearAllPools();
    }

    public void Dispose()
    {
        engine.Dispose();
        closed?.Invoke();
    }

    public Task<IReadOnlyList<Car>> CarsAsync(CancellationToken cancellation) =>
        CarsAsync("", 0, int.MaxValue, cancellation);

    public Task<IReadOnlyList<Car>> CarsAsync(string words, int skip, int most, CancellationToken cancellation) =>
        Guarded<IReadOnlyList<Car>>(
            async database =>
            {
                var rows = database.Cars.AsNoTracking();
                foreach (var word in SearchKey.Words(words))
                    rows = rows.Where(car => car.LabelKey.Contains(word));
                return
                [
                    .. (
                        await rows.OrderBy(car => car.LabelKey)
                            .ThenBy(car => car.Id)
                            .Skip(skip)
                            .Take(most)
                            .ToListAsync(cancellation)
                            .ConfigureAwait(false)
                    ).Select(RowText.Car),
                ];
            },
            cancellation
        );

    public Task<Car?> CarAsync(Guid id, CancellationToken cancellation) =>
        Guarded(
            async database =>
                await database
                    .Cars.AsNoTracking()
                    .FirstOrDefaultAsync(car => car.Id == id, cancellation)
                    .ConfigureAwait(false)
                    is { } row
                    ? RowText.Car(row)
                    : null,
            cancellation
        );

    public Task<IReadOnlyList<Kit>> KitsAsync(CancellationToken cancellation) =>
        Guarded<IReadOnlyList<Kit>>(
            async database => await OwnKitsAsync(database, cancellation).ConfigureAwait(false),
            cancellation
        );

    public Task<JobsFound> JobsAsync(JobSearch search, CancellationToken cancellation) =>
        Guarded(
            async database =>
            {
                var lines = database.JobLines.AsNoTracking();
                if (search.State is { } state)
                    lines = lines.Where(line => line.State == state);
                if (search.CarId is { } car)
                    lines = lines.Where(line => line.CarId == car);
                if (search.Before is { } before)
                    lines = lines.Where(line => line.Number < before);
                if (search.InNotes && SearchKey.Words(search.Words) is { Length: > 0 } words)
                {
                    var fitting = await WithNotesAsync(database, lines, words, cancellation).ConfigureAwait(false);
                    lines = lines.Where(line => fitting.Contains(line.Number));
                }
                else
                    foreach (var word in SearchKey.Words(search.Words))
                        lines = lines.Where(line => line.SearchKey.Contains(word));
                var most = Math.Clamp(search.Most, 0, int.MaxValue - 1);
                // The numbers first, which an index alone can tell, then the few lines that are shown.
                var numbers = lines.OrderByDescending(line => line.Number).Select(line => line.Number).Take(most + 1);
                try
                {
                    var found = await database
                        .JobLines.AsNoTracking()
                        .Where(line => numbers.Contains(line.Number))
                        .OrderByDescending(line => line.Number)
                        .ToListAsync(cancellation)
                        .ConfigureAwait(false);
                    return new JobsFound([.. found.Take(most).Select(JobLines.Summary)], found.Count > most);
                }
                catch (Exception trouble) when (BadCell.Is(trouble))
                {
                    return await FoundOneByOneAsync(
                            database,
                            await numbers.ToListAsync(cancellation).ConfigureAwait(false),
                            most,
                            cancellation
                        )
                        .ConfigureAwait(false);
                }
            },
            cancellation
        );

    public Task<IReadOnlyDictionary<string, int>> CountsAsync(CancellationToken cancellation) =>
        Guarded<IReadOnlyDictionary<string, int>>(
            async database =>
                await database
                    .JobLines.GroupBy(line => line.State)
                    .Select(group => new { group.Key, Count = group.Count() })
                    .ToDictionaryAsync(group => group.Key, group => group.Count, cancellation)
                    .ConfigureAwait(false),
            cancellation
        );

    public Task<JobRecord?> RecordAsync(int number, CancellationToken cancellation) =>
        Guarded(
            async database =>
            {
                // One read transaction, so that car, kits and entries are of one moment.
                var transaction = await engine.ReadAsync(database, cancellation).ConfigureAwait(false);
                await using (transaction.ConfigureAwait(false))
                {
                    var own = await OwnKitRowsAsync(database, cancellation).ConfigureAwait(false);
                    return await RowsOfAsync(database, number, own, cancellation).ConfigureAwait(false) is { } rows
                        ? Record(rows)
                        : null;
                }
            },
            cancellation
        );

    public Task<int?> EntryCountAsync(int number, CancellationToken cancellation) =>
        Guarded(
            async database =>
                await database
                    .Jobs.Where(job => job.Number == number)
                    .Select(job => (int?)database.Entries.Count(entry => entry.JobId == job.Id))
                    .FirstOrDefaultAsync(cancellation)
                    .ConfigureAwait(false),
            cancellation
        );

    private static async Task<ImmutableArray<Kit>> OwnKitsAsync(
        JournalDatabase database,
        CancellationToken cancellation
    ) => [.. (await OwnKitRowsAsync(database, cancellation).ConfigureAwait(false)).Value];

    private static async Task<ImmutableArray<Kit>> KitsOfAsync(
        JournalDatabase database,
        JobRow job,
        CancellationToken cancellation
    )
    {
        var own = await OwnKitsAsync(database, cancellation).ConfigureAwait(false);
        return job.KitsSince is null
            ? own
            : Kits(
                job,
                own,
                await database
                    .JobKits.AsNoTracking()
                    .Where(kit => kit.JobId == job.Id)
                    .ToListAsync(cancellation)
                    .ConfigureAwait(false)
            );
    }

    /// <summary>The workshop's own kits, read when they are asked for. Without the column of their time, which the body
    /// says as well: one bad cell there would keep every job from being read.</summary>
    private static async Task<Lazy<ImmutableArray<Kit>>> OwnKitRowsAsync(
        JournalDatabase database,
        CancellationToken cancellation
    )
    {
        var rows = await database
            .Kits.Select(kit => new { kit.Id, kit.BodyJson })
            .ToListAsync(cancellation)
            .ConfigureAwait(false);
        return new(() => KitsOfJob.Sorted(rows.Select(row => RowText.Kit(row.BodyJson, row.Id))));
    }

    private static ImmutableArray<Kit> Kits(JobRow job, ImmutableArray<Kit> own, IEnumerable<JobKitRow> brought) =>
        KitsOfJob.Of(job.KitsSince, own, brought.Select(row => RowText.Kit(row.BodyJson, row.KitId)));

    private Task<T> Guarded<T>(Func<JournalDatabase, Task<T>> work, CancellationToken cancellation) =>
        Guarded(null, work, cancellation);

    /// <param name="turn">The writer's turn, when somebody writes.</param>
    private async Task<T> Guarded<T>(
        WaitingLine.Place? turn,
        Func<JournalDatabase, Task<T>> work,
        CancellationToken cancellation
    )
    {
        var began = Stopwatch.GetTimestamp();
        for (var round = 1; ; round++)
        {
            WaitingLine.Place? room = null;
            try
            {
                room = await engine.RoomAsync(cancellation).ConfigureAwait(false);
                var database = engine.Open();
                await using (database.ConfigureAwait(false))
                {
                    return await work(database).ConfigureAwait(false);
                }
            }
            catch (Exception trouble) when (Stopwatch.GetElapsedTime(began) < Persistence && engine.IsPassing(trouble))
            {
                await Task.Delay(Random.Shared.Next(5, 10 * Math.Min(round, 25)), cancellation).ConfigureAwait(false);
            }
            catch (Exception trouble) when (engine.Explain(trouble) is not null)
            {
                var explained = engine.Explain(trouble)!;
                MarkVain(explained, room);
                MarkVain(explained, turn);
                throw explained;
            }
            catch (StoreException trouble)
            {
                MarkVain(trouble, turn);
                throw;
            }
            catch (Exception trouble) when (BadCell.Is(trouble))
            {
                throw new StoreException(
                    Phrase.Of(
                        $"Something in {Name} is not what it is to be ({Phrase.Verbatim(trouble.Message.TrimEnd('.'))}); "
                            + $"tightcold check names it. Nothing was changed."
                    ),
                    trouble
                );
            }
            finally
            {
                room?.Dispose();
            }
        }
    }

    /// <summary>The next who comes would wait in vain as well.</summary>
    private static void MarkVain(StoreException trouble, WaitingLine.Place? place)
    {
        if (place is not null && trouble.Trouble is (StoreTrouble.Busy or StoreTrouble.Stopped))
            place.InVain = true;
    }
}
