using System.Collections.Immutable;
using System.Globalization;
using System.Runtime.CompilerServices;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.LogStore.Kept;
using Tightcold.LogStore.Lines;
using Tightcold.LogStore.Reading;
using Tightcold.Quantities;

namespace Tightcold.LogStore;

/// <summary>Cars, kits, jobs and entries in one file that only grows, for a place without a database: one line for each
/// act, everything but the bytes of photos in memory (docs/log-file.md). One program writes at a time; its calls may
/// come from anywhere and between each other. Trouble with the data comes as <see cref="LogStoreException"/>.</summary>
public sealed partial class JobLog : IJobStore
{
    private readonly IGrowingFile file;

    /// <summary>Each call is one stretch under it: the file is synchronous, so nothing waits inside.</summary>
    private readonly Lock gate = new();

    private readonly Shelf shelf;
    private readonly List<LogDamage> places;
    private readonly Dictionary<Guid, LogDamage> lostPhotos = [];

    private JobLog(IGrowingFile file, Opening opening)
    {
        this.file = file;
        shelf = opening.Shelf;
        places = [.. opening.Places];
        next = opening.Next;
        if (opening.Torn is { } torn)
        {
            var bytes = (file.Length - torn.At).ToString(CultureInfo.InvariantCulture);
            var whose = Phrase.Join(", ", torn.Of.Select(of => of.Name));
            TornSays = torn.Of.IsEmpty
                ? Phrase.Of(
                    $"The last writing did not come to its end; the {bytes} bytes of it were cut off. Everything that "
                        + $"was acknowledged is there."
                )
                : Phrase.Of(
                    $"The last writing ({whose}) did not come to its end; the {bytes} bytes of it were cut off. "
                        + $"Everything that was acknowledged is there."
                );
            file.Cut(torn.At);
        }
        end = file.Length;
    }

    /// <summary>Opens the log of a file; an empty one is a new log. Nothing is written but for this: an end that a
    /// writing left unfinished is cut off, and said (<see cref="Torn"/>).</summary>
    /// <exception cref="LogStoreException">The file is no log or a newer program's; it was left as it is.</exception>
    public static JobLog Open(IGrowingFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return new(file, Opening.Of(file));
    }

    /// <summary>Takes in what the writer of the same file added behind what is known here, for a reader beside
    /// it.</summary>
    /// <exception cref="LogStoreException">What stands there is not whole, or does not follow: the log has to be opened
    /// again.</exception>
    public void CatchUp()
    {
        lock (gate)
        {
            foreach (var piece in Pieces.Of(file, end))
            {
                if (piece is not Piece.Whole { Line: { Act: { } act } line } whole || line.Before != next.Before)
                    throw new LogStoreException("What was added to the log does not follow; open it again.");
                next = line.Next;
                shelf.Put(act, whole.At, whole.BodiesAt);
            }
            end = file.Length;
        }
    }

    /// <summary>What was cut off when the log was opened; null when its last writing had come to its end.</summary>
    public Phrase? TornSays { get; }

    /// <summary>The same in English.</summary>
    public string? Torn => TornSays?.ToString();

    /// <summary>All that is known to be damaged, in the order of the file. Photos are looked at when somebody asks for
    /// them.</summary>
    public ImmutableArray<LogDamage> Damages
    {
        get
        {
            lock (gate)
                return
                [
                    .. places
                        .Concat(shelf.Broken)
                        .Concat(shelf.Numbered.Values.Select(Carless).OfType<LogDamage>())
                        .Concat(lostPhotos.Values)
                        .OrderBy(damage => damage.At),
                ];
        }
    }

    public Task<IReadOnlyList<Car>> CarsAsync(CancellationToken cancellation) =>
        CarsAsync("", 0, int.MaxValue, cancellation);

    public Task<IReadOnlyList<Car>> CarsAsync(string words, int skip, int most, CancellationToken cancellation) =>
        Asked<IReadOnlyList<Car>>(
            () =>
            {
                var wanted = SearchKey.Words(words);
                return
                [
                    .. shelf
                        .Cars.Where(car => HasAll(car.Key, wanted))
                        .Order(Comparer<KeptCar>.Create(KeptCar.Order))
                        .Skip(skip)
                        .Take(most)
                        .Select(car => car.Car),
                ];
            },
            cancellation
        );

    public Task<Car?> CarAsync(Guid id, CancellationToken cancellation) =>
        Asked(() => shelf.Car(id)?.Car, cancellation);

    public Task<IReadOnlyList<Kit>> KitsAsync(CancellationToken cancellation) =>
        Asked<IReadOnlyList<Kit>>(() => shelf.Kits, cancellation);

    public Task<JobsFound> JobsAsync(JobSearch search, CancellationToken cancellation) =>
        Asked(
            () =>
            {
                var words = SearchKey.Words(search.Words);
                var most = Math.Clamp(search.Most, 0, int.MaxValue - 1);
                var found = NewestFirst(search.Before)
                    .Where(job => search.CarId is not { } car || job.Job.CarId == car)
                    .Select(job => (Job: job, Summary: Summary(job)))
                    .Where(one => one.Summary is not null)
                    .Where(one => search.State is not { } state || one.Summary!.State == state)
                    .Where(one => words.IsEmpty || HasAll(Key(one.Job, one.Summary!, search.InNotes), words))
                    .Select(one => one.Summary!)
                    .Take(most + 1)
                    .ToList();
                return new JobsFound([.. found.Take(most)], found.Count > most);
            },
            cancellation
        );

    public Task<IReadOnlyDictionary<string, int>> CountsAsync(CancellationToken cancellation) =>
        Asked<IReadOnlyDictionary<string, int>>(
            () =>
                shelf
                    .Numbered.Values.Select(Summary)
                    .OfType<JobSummary>()
                    .CountBy(summary => summary.State)
                    .ToDictionary(),
            cancellation
        );

    public async IAsyncEnumerable<JobRecord> RecordsAsync(
        Guid? carId,
        ICollection<string>? leftOut,
        [EnumeratorCancellation] CancellationToken cancellation
    )
    {
        var numbers = await Asked<ImmutableArray<int>>(() => [.. shelf.Numbers.OrderDescending()], cancellation)
            .ConfigureAwait(false);
        foreach (var number in numbers)
        {
            // Reading all journals takes a while; whoever else asks comes in between.
            await Task.Yield();
            JobRecord? record;
            try
            {
                record = await Asked(() => IsOf(number, carId) ? Record(number) : null, cancellation)
                    .ConfigureAwait(false);
            }
            catch (LogStoreException trouble) when (leftOut is not null)
            {
                leftOut.Add(trouble.Message);
                continue;
            }
            if (record is not null)
                yield return record;
        }
    }

    public Task<JobRecord?> RecordAsync(int number, CancellationToken cancellation) =>
        Asked(() => Record(number), cancellation);

    public Task<IReadOnlyList<ContainerUse>> ContainerUsesAsync(int number, int most, CancellationToken cancellation) =>
        Asked<IReadOnlyList<ContainerUse>>(
            () =>
                shelf.Numbered.GetValueOrDefault(number) is not { KitsSince: null }
                    ? []
                    :
                    [
                        .. NewestFirst(number)
                            .Where(job => job.KitsSince is null)
                            .Take(most)
                            .Select(job => (job.Job.Number, Moved(job)))
                            .Where(use => use.Item2 is { Standing.Length: > 0 })
                            .Select(use => new ContainerUse(use.Number, use.Item2!)),
                    ],
            cancellation
        );

    public Task<int?> EntryCountAsync(int number, CancellationToken cancellation) =>
        Asked(() => Readable(number)?.Arrived.Count, cancellation);

    /// <inheritdoc/>
    /// <remarks>From the digest of the last line, which stands for all of them.</remarks>
    public Task<long> VersionAsync(CancellationToken cancellation) =>
        Asked(
            () =>
                long.MaxValue
                & long.Parse(next.Before.AsSpan(0, 16), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture),
            cancellation
        );

    public Task<IReadOnlyDictionary<int, string>> StampsAsync(CancellationToken cancellation) =>
        Asked<IReadOnlyDictionary<int, string>>(
            () =>
                shelf
                    .Numbered.Values.Where(job => Carless(job) is null)
                    .ToDictionary(
                        job => job.Job.Number,
                        job =>
                            string.Create(
                                CultureInfo.InvariantCulture,
                                $"{job.Arrived.Count} {shelf.Car(job.Job.CarId)!.Sum.AsSpan(0, 12)}"
                            )
                    ),
            cancellation
        );

    private IEnumerable<KeptJob> NewestFirst(int? before) =>
        shelf.Numbered.Where(one => before is not { } number || one.Key < number).Reverse().Select(one => one.Value);

    private bool IsOf(int number, Guid? carId) =>
        carId is not { } car
        || (shelf.Numbered.TryGetValue(number, out var job) ? job.Job.CarId : shelf.CarOfBroken(number) ?? car) == car;

    private JobRecord? Record(int number)
    {
        if (Readable(number) is not { } job)
            return null;
        return job.Record(shelf.Car(job.Job.CarId)!.Car, shelf.Kits, job.Journal!);
    }

    /// <summary>The job of that number; null when there is none.</summary>
    /// <exception cref="LogStoreException">It is damaged.</exception>
    private KeptJob? Readable(int number)
    {
        if (shelf.Numbered.TryGetValue(number, out var job))
            return Carless(job) is { } damage ? throw new LogStoreException(damage.Says) : job;
        return shelf.BrokenJob(number) is { } broken ? throw new LogStoreException(broken.Says) : null;
    }

    /// <summary>A job of which the car is damaged cannot be read either.</summary>
    private LogDamage? Carless(KeptJob job)
    {
        if (shelf.Car(job.Job.CarId) is not null)
            return null;
        var of = LogSubject.Of(job.Job);
        var at = shelf.Broken.FirstOrDefault(damage => damage.Of!.Id == job.Job.CarId)?.At ?? 0;
        return new(
            of,
            at,
            Phrase.Of($"{of.Name} cannot be read: its car is not there. It is left out; nothing was overwritten.")
        );
    }

    private JobSummary? Summary(KeptJob job) =>
        shelf.Car(job.Job.CarId) is { } car && job.Journal is { } journal ? job.Summary(car.Car, journal) : null;

    private static string Key(KeptJob job, JobSummary summary, bool inNotes)
    {
        IEnumerable<string?> line = [summary.CarLabel, summary.Complaint, summary.WaitingFor];
        // A struck note is found too: it is still there to be read.
        return SearchKey.Of(
            inNotes
                ? line.Concat(
                    job.Arrived.Where(entry => entry.Kind == EntryKinds.Note)
                        .Select(entry => entry.Fields.Text(FieldNames.Text))
                )
                : line
        );
    }

    private static bool HasAll(string key, ImmutableArray<string> words) =>
        words.All(word => key.Contains(word, StringComparison.Ordinal));

    private static Journal? Moved(KeptJob job) =>
        Journal.Create(job.Arrived.Where(entry => ContainerUse.Kinds.Contains(entry.Kind))).Journal;

    /// <summary>One call: what it finds or does, or why not, as a task that is done.</summary>
    private Task<T> Asked<T>(Func<T> work, CancellationToken cancellation)
    {
        if (cancellation.IsCancellationRequested)
            return Task.FromCanceled<T>(cancellation);
        lock (gate)
            try
            {
                return Task.FromResult(work());
            }
            catch (Exception trouble)
            {
                return Task.FromException<T>(trouble);
            }
    }
}
