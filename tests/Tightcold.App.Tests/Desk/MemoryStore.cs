using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;

namespace Tightcold.App.Tests.Desk;

/// <summary>A store that forgets: for tests of the desk alone.</summary>
internal sealed class MemoryStore : IJobStore
{
    private readonly Dictionary<Guid, Car> cars = [];
    private readonly List<Kit> kits = [];
    private readonly Dictionary<int, JobRecord> records = [];

    public Task<IReadOnlyList<Car>> CarsAsync(CancellationToken cancellation) => Task.FromResult<IReadOnlyList<Car>>([.. cars.Values]);

    public Task<Car?> CarAsync(Guid id, CancellationToken cancellation) => Task.FromResult(cars.GetValueOrDefault(id));

    public Task SaveCarAsync(Car car, CancellationToken cancellation)
    {
        cars[car.Id] = car;
        return Task.CompletedTask;
    }

    public Task<IReadOnlyList<Kit>> KitsAsync(CancellationToken cancellation) => Task.FromResult<IReadOnlyList<Kit>>([.. kits]);

    public Task AddKitAsync(Kit kit, CancellationToken cancellation)
    {
        kits.Add(kit);
        return Task.CompletedTask;
    }

    public Task<IReadOnlyList<Job>> JobsAsync(CancellationToken cancellation) =>
        Task.FromResult<IReadOnlyList<Job>>([.. records.Values.Select(record => record.Job).OrderByDescending(job => job.Number)]);

    public Task<JobRecord?> RecordAsync(int number, CancellationToken cancellation) =>
        Task.FromResult(records.TryGetValue(number, out var record) ? record with { Car = cars[record.Car.Id], Kits = [.. kits] } : null);

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
        records[record.Job.Number] = record;
        return Task.FromResult(record.Job);
    }
}
