using System.Collections.Immutable;
using CsCheck;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Jobs.Photos;
using Tightcold.Jobs.Tests;
using Tightcold.Storage;

namespace Tightcold.LogStore.Tests;

/// <summary>The law of this room: whatever is done, the log answers as the database does.</summary>
public sealed class SameAsTheDatabaseTests
{
    private const int Jobs = 5;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    /// <param name="Which">What is done.</param>
    /// <param name="One">With whom, of a small pool, so that the same comes again.</param>
    private sealed record Act(int Which, int One, int Other, int Third);

    /// <summary>Things that the acts take from.</summary>
    private sealed record Pool(Entry[] Entries, FieldBag[] Cars, FieldBag[] Kits);

    private static readonly Gen<Act[]> Acts = Gen.Select(
        Gen.Int[0, 10],
        Gen.Int[0, 6],
        Gen.Int[0, 13],
        Gen.Int[0, 6],
        (which, one, other, third) => new Act(which, one, other, third)
    ).Array[8, 40];

    private static readonly Gen<Pool> Pools = Gen.Select(
        // Of any kind, and beside them what lists and books ask for.
        Gen.Select(SomeEntries.Corrected, SomeEntries.Corrected, (some, more) => new[] { some, Asked(more) })
            .Select(both => both.SelectMany(entries => entries).DistinctBy(entry => entry.Id).ToArray()),
        SomeEntries.Bag(Car.Schema).Array[4],
        SomeEntries.Bag(Kit.Schema).Array[3],
        (entries, cars, kits) => new Pool(entries, cars, kits)
    );

    private static Entry[] Asked(Entry[] entries) =>
        [
            .. entries.Select(
                (entry, i) =>
                    (
                        (i % 3) switch
                        {
                            0 => Story.Note(i),
                            1 => Story.State(i, i % 2 == 0 ? "waiting" : "closed"),
                            _ => Story.Weighed(i),
                        }
                    ) with
                    {
                        Id = entry.Id,
                        ObservedAt = entry.ObservedAt,
                        WrittenAt = entry.WrittenAt,
                        Supersedes = entry.Supersedes,
                        Reason = entry.Reason,
                    }
            ),
        ];

    [Fact]
    public async Task Whatever_a_workshop_does_the_log_answers_as_the_database_does_and_exports_the_same_bytes() =>
        await Gen.Select(Pools, Acts, Gen.Int[0, 6])
            .SampleAsync(
                async (pool, acts, reopenEach) =>
                {
                    using var folder = new Folder();
                    using var database = await JobStore.OpenAsync(folder.Path, Stop);
                    var file = new MemoryFile();
                    var log = JobLog.Open(file);
                    var number = 0;
                    foreach (var act in acts)
                    {
                        var (before, version) = (await StampsAsync(database, log), await log.VersionAsync(Stop));
                        var length = file.Length;
                        var wanted = await DoAsync(database, pool, act, log);
                        Assert.Equal(wanted, await DoAsync(log, pool, act, log));
                        var after = await StampsAsync(database, log);
                        Assert.Equal(Changed(before.Database, after.Database), Changed(before.Log, after.Log));
                        Assert.Equal(file.Length == length, version == await log.VersionAsync(Stop));
                        if (reopenEach > 0 && ++number % reopenEach == 0)
                            log = Reopened(file, await log.VersionAsync(Stop));
                    }
                    var (words, jobs, cars) = Asking(pool);
                    var answers = await Answers.OfAsync(database, words, jobs, cars);
                    Assert.Equal(answers, await Answers.OfAsync(log, words, jobs, cars));
                    Assert.Equal(
                        answers,
                        await Answers.OfAsync(JobLog.Open(new MemoryFile(file.Bytes)), words, jobs, cars)
                    );
                },
                iter: 40,
                threads: 1
            );

    private static JobLog Reopened(MemoryFile file, long version)
    {
        var (log, writes) = (JobLog.Open(file), file.Writes);
        Assert.Equal((null, 0, writes), (log.Torn, log.Damages.Length, file.Writes));
        Assert.Equal(version, log.VersionAsync(Stop).Result);
        return log;
    }

    private static async Task<(
        IReadOnlyDictionary<int, string> Database,
        IReadOnlyDictionary<int, string> Log
    )> StampsAsync(JobStore database, JobLog log) => (await database.StampsAsync(Stop), await log.StampsAsync(Stop));

    private static IEnumerable<int> Changed(
        IReadOnlyDictionary<int, string> before,
        IReadOnlyDictionary<int, string> after
    ) => after.Where(one => before.GetValueOrDefault(one.Key) != one.Value).Select(one => one.Key).Order();

    private static (ImmutableArray<string> Words, ImmutableArray<Guid> Jobs, ImmutableArray<Guid> Cars) Asking(
        Pool pool
    ) =>
        (
            [
                .. Story.Words,
                .. pool
                    .Cars.Select(car => car.Text("label")!.Trim())
                    .Where(label => label.Length > 0)
                    .Select(label => label[^1..]),
            ],
            [.. Enumerable.Range(0, 2 * Jobs).Select(job => Story.Id(3, job))],
            [.. Enumerable.Range(0, 5).Select(car => Story.Id(1, car))]
        );

    /// <summary>Does it, and says what came of it.</summary>
    /// <param name="source">Where a record of this workshop's own is taken from; the answers are the same by
    /// law.</param>
    private static async Task<string> DoAsync(IJobStore store, Pool pool, Act act, JobLog source)
    {
        var (job, car) = (Story.Id(3, act.One % Jobs), Story.Id(1, act.Other % 3));
        ImmutableArray<Entry> some = [.. pool.Entries.Skip(act.Other).Take(act.Third)];
        try
        {
            switch (act.Which)
            {
                case 0:
                    await store.SaveCarAsync(new(Story.Id(1, act.One % 3), pool.Cars[act.Third % 4]), Stop);
                    return "saved";
                case 1:
                    await store.AddKitAsync(KitOf(pool, act.One, act.Third), Stop);
                    return "added";
                case 2 or 3:
                    return $"{await store.AddJobAsync(Opened(job, car, act), Stop)}";
                case 4 or 5 or 6:
                    await store.AddEntriesAsync(job, some, Stop);
                    return "added";
                case 7:
                    // Another entry under an id that may be there.
                    await store.AddEntriesAsync(job, [.. some.Select(entry => entry with { Who = "Bo" })], Stop);
                    return "added";
                case 8:
                    await store.AddPhotoAsync(job, Picture(pool, act), Stop);
                    return "kept";
                case 9:
                    if (await source.RecordAsync(act.One, Stop) is not { } own)
                        return "none";
                    var (more, _) = own.Journal.Union(some.Where(entry => own.Journal.Find(entry.Id) is null));
                    if (more is null)
                        return "none";
                    var others = Kits(pool, act).Where(kit => own.Kits.All(there => there.Id != kit.Id));
                    own = own with { Journal = more, Kits = [.. own.Kits, .. others] };
                    return $"{await store.MergeAsync(own, Stop)}";
                default:
                    return $"{await store.MergeAsync(Elsewhere(pool, act, some), Stop)}";
            }
        }
        catch (StoreException)
        {
            return "refused";
        }
    }

    private static Job Opened(Guid id, Guid car, Act act) =>
        new(id, car, act.Third, $"blows warm {act.One}", Story.Noon.AddMinutes(act.Third), act.One);

    private static Kit KitOf(Pool pool, int id, int from) =>
        new(Story.Id(2, id), Story.Noon.AddDays(from - 3), pool.Kits[id % 3], []);

    private static ImmutableArray<Kit> Kits(Pool pool, Act act) =>
        [.. Enumerable.Range(act.Other % 6, act.Third % 3).Select(id => KitOf(pool, id, act.One))];

    private static Photo Picture(Pool pool, Act act) =>
        Story.Picture(act.Third, pool.Entries[act.Other % pool.Entries.Length]);

    private static JobRecord Elsewhere(Pool pool, Act act, ImmutableArray<Entry> some)
    {
        var car = new Car(Story.Id(1, act.One % 5), pool.Cars[act.Third % 4]);
        var job = Opened(Story.Id(3, act.One + (act.Other % 3)), car.Id, act);
        var journal = Journal.Create(some).Journal!;
        return new(car, Kits(pool, act), job, journal)
        {
            Chain = act.Other % 2 == 0 ? JournalChain.Of(job, some) : [],
            Photos = [.. some.Take(act.One % 3).Select((entry, i) => Story.Picture(act.Third + i, entry))],
        };
    }

    private sealed class Folder : IDisposable
    {
        public string Path { get; } = Directory.CreateTempSubdirectory("tightcold-test-").FullName;

        public void Dispose()
        {
            JobStore.Release();
            Directory.Delete(Path, recursive: true);
        }
    }
}
