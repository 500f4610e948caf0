using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Exchange;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Jobs.Photos;

namespace Tightcold.App.Tests.Desk;

/// <summary>A store that forgets: for tests of the desk alone.</summary>
internal sealed class MemoryStore : IJobStore
{
    private readonly Dictionary<Guid, Car> cars = [];
    private readonly List<Kit> kits = [];
    private readonly Dictionary<int, JobRecord> records = [];

    public Task<IReadOnlyList<Car>> CarsAsync(CancellationToken cancellation) =>
        Task.FromResult<IReadOnlyList<Car>>([.. cars.Values]);

    public Task<IReadOnlyList<Car>> CarsAsync(string words, int skip, int most, CancellationToken cancellation) =>
        Task.FromResult<IReadOnlyList<Car>>([
            .. cars
                .Values.Where(car =>
                    SearchKey.Words(words).All(word => SearchKey.Of(car.Label).Contains(word, StringComparison.Ordinal))
                )
                .OrderBy(car => car.Label, StringComparer.Ordinal)
                .Skip(skip)
                .Take(most),
        ]);

    public Task<IReadOnlyList<ContainerUse>> ContainerUsesAsync(int number, int most, CancellationToken cancellation) =>
        Task.FromResult<IReadOnlyList<ContainerUse>>([
            .. records
                .Where(pair => pair.Key < number)
                .OrderByDescending(pair => pair.Key)
                .Take(most)
                .Select(pair => new ContainerUse(
                    pair.Key,
                    Journal
                        .Create(pair.Value.Journal.All.Where(entry => ContainerUse.Kinds.Contains(entry.Kind)))
                        .Journal!
                )),
        ]);

    public Task<Car?> CarAsync(Guid id, CancellationToken cancellation) => Task.FromResult(cars.GetValueOrDefault(id));

    public Task SaveCarAsync(Car car, CancellationToken cancellation)
    {
        cars[car.Id] = car;
        return Task.CompletedTask;
    }

    public Task MergeCarAsync(Car car, CancellationToken cancellation) =>
        cars.TryGetValue(car.Id, out var there) && !CarVersion.Supersedes(car, there)
            ? Task.CompletedTask
            : SaveCarAsync(car, cancellation);

    public Task<IReadOnlyList<Kit>> KitsAsync(CancellationToken cancellation) =>
        Task.FromResult<IReadOnlyList<Kit>>([.. kits]);

    public Task AddKitAsync(Kit kit, CancellationToken cancellation)
    {
        kits.Add(kit);
        return Task.CompletedTask;
    }

    public Task<JobsFound> JobsAsync(JobSearch search, CancellationToken cancellation)
    {
        var found = records
            .Values.Select(JobSummary.Of)
            .Where(job =>
                (search.State is null || job.State == search.State)
                && (search.CarId is null || job.CarId == search.CarId)
                && (search.Before is null || job.Number < search.Before)
            )
            .Where(job =>
                SearchKey
                    .Words(search.Words)
                    .All(word =>
                        SearchKey
                            .Of(job.CarLabel, job.Complaint, job.WaitingFor)
                            .Contains(word, StringComparison.Ordinal)
                    )
            )
            .OrderByDescending(job => job.Number)
            .ToList();
        return Task.FromResult(new JobsFound([.. found.Take(search.Most)], found.Count > search.Most));
    }

    public Task<IReadOnlyDictionary<string, int>> CountsAsync(CancellationToken cancellation) =>
        Task.FromResult<IReadOnlyDictionary<string, int>>(
            records.Values.GroupBy(record => record.State).ToDictionary(group => group.Key, group => group.Count())
        );

    public async IAsyncEnumerable<JobRecord> RecordsAsync(
        Guid? carId,
        ICollection<string>? leftOut,
        [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancellation
    )
    {
        foreach (var record in records.Values.OrderByDescending(record => record.Job.Number))
            if (carId is null || record.Car.Id == carId)
                yield return (await RecordAsync(record.Job.Number, cancellation))!;
    }

    public Task<JobRecord?> RecordAsync(int number, CancellationToken cancellation) =>
        Task.FromResult(
            records.TryGetValue(number, out var record)
                ? record with
                {
                    Car = cars[record.Car.Id],
                    Kits = [.. kits],
                }
                : null
        );

    private long asked;

    public Task<long> VersionAsync(CancellationToken cancellation) => Task.FromResult(Interlocked.Increment(ref asked));

    public Task<IReadOnlyDictionary<int, string>> StampsAsync(CancellationToken cancellation) =>
        Task.FromResult<IReadOnlyDictionary<int, string>>(
            records.ToDictionary(
                pair => pair.Key,
                pair => $"{pair.Value.Journal.All.Length} {cars[pair.Value.Car.Id].GetHashCode()}"
            )
        );

    public Task<int?> EntryCountAsync(int number, CancellationToken cancellation) =>
        Task.FromResult(records.TryGetValue(number, out var record) ? record.Journal.All.Length : (int?)null);

    public Task<Job> AddJobAsync(Job job, CancellationToken cancellation)
    {
        var numbered = job with { Number = records.Count + 1 };
        records[numbered.Number] = new JobRecord(cars[job.CarId], [], numbered, Journal.Empty);
        return Task.FromResult(numbered);
    }

    public Task AddEntriesAsync(Guid jobId, IReadOnlyCollection<Entry> entries, CancellationToken cancellation)
    {
        var record = records.Values.Single(known => known.Job.Id == jobId);
        records[record.Job.Number] = record with { Journal = record.Journal.Union(entries).Journal! };
        return Task.CompletedTask;
    }

    public Task<Job> MergeAsync(JobRecord record, CancellationToken cancellation)
    {
        cars[record.Car.Id] = record.Car;
        records[record.Job.Number] = record with { Photos = [] };
        photos.AddRange(
            record
                .Photos.Where(photo => photos.TrueForAll(kept => kept.Photo.Id != photo.Id))
                .Select(photo => (record.Job.Id, photo))
        );
        return Task.FromResult(record.Job);
    }

    private readonly List<(Guid Job, Photo Photo)> photos = [];

    public Task AddPhotoAsync(Guid jobId, Photo photo, CancellationToken cancellation)
    {
        if (photos.TrueForAll(kept => kept.Photo.Id != photo.Id))
            photos.Add((jobId, photo));
        return Task.CompletedTask;
    }

    public Task<IReadOnlyList<Photo>> PhotosAsync(Guid jobId, CancellationToken cancellation) =>
        Task.FromResult<IReadOnlyList<Photo>>([.. photos.Where(kept => kept.Job == jobId).Select(kept => kept.Photo)]);

    public Task<IReadOnlyList<(Guid Photo, Guid Entry)>> PhotoListAsync(Guid jobId, CancellationToken cancellation) =>
        Task.FromResult<IReadOnlyList<(Guid Photo, Guid Entry)>>([
            .. photos.Where(kept => kept.Job == jobId).Select(kept => (kept.Photo.Id, kept.Photo.Entry)),
        ]);

    public Task<Photo?> PhotoAsync(Guid jobId, Guid id, CancellationToken cancellation) =>
        Task.FromResult<Photo?>(photos.Find(kept => kept.Job == jobId && kept.Photo.Id == id).Photo);
}
