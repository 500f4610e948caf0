using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Kits;
using Tightcold.Jobs.Photos;

namespace Tightcold.Jobs.Journals;

/// <summary>Where cars, kits, jobs and entries are kept. What has been acknowledged (a task that completed) is on
/// disk and survives a kill. Entries are only ever added; adding the same entry twice changes nothing.</summary>
public interface IJobStore
{
    Task<IReadOnlyList<Car>> CarsAsync(CancellationToken cancellation);

    /// <summary>Cars by name, from the one at <paramref name="skip"/> on; only those whose name holds all
    /// words.</summary>
    Task<IReadOnlyList<Car>> CarsAsync(string words, int skip, int most, CancellationToken cancellation);
    Task<Car?> CarAsync(Guid id, CancellationToken cancellation);

    /// <summary>Adds the car or replaces its label data.</summary>
    Task SaveCarAsync(Car car, CancellationToken cancellation);

    /// <summary>Adds a car from elsewhere, or puts it in the place of the one that is here where it is the later
    /// version of it (docs/exchange.md).</summary>
    Task MergeCarAsync(Car car, CancellationToken cancellation);

    Task<IReadOnlyList<Kit>> KitsAsync(CancellationToken cancellation);
    Task AddKitAsync(Kit kit, CancellationToken cancellation);

    /// <summary>Summaries of the jobs asked for, newest first, without reading a journal.</summary>
    Task<JobsFound> JobsAsync(JobSearch search, CancellationToken cancellation);

    /// <summary>How many jobs are in each state.</summary>
    Task<IReadOnlyDictionary<string, int>> CountsAsync(CancellationToken cancellation);

    /// <summary>All records, or those of one car, newest first, a few at a time.</summary>
    /// <param name="leftOut">Gets a sentence for each job that cannot be read; without it the first such job ends the
    /// reading.</param>
    IAsyncEnumerable<JobRecord> RecordsAsync(Guid? carId, ICollection<string>? leftOut, CancellationToken cancellation);

    Task<JobRecord?> RecordAsync(int number, CancellationToken cancellation);

    /// <summary>What this workshop's jobs before that number did with cans and cylinders, the latest job first, at most
    /// <paramref name="most"/> of them; none for a job that brought a kit of its own.</summary>
    Task<IReadOnlyList<ContainerUse>> ContainerUsesAsync(int number, int most, CancellationToken cancellation);

    /// <summary>How many entries the job of that number has; null when there is none. Cheap: a page asks it every few
    /// seconds, and since entries are only ever added it is the version of the journal.</summary>
    Task<int?> EntryCountAsync(int number, CancellationToken cancellation);

    /// <summary>Another number whenever anybody wrote anything; the same number means that nothing changed since.
    /// Cheap, however many jobs there are.</summary>
    Task<long> VersionAsync(CancellationToken cancellation);

    /// <summary>For each job, by its number, what changes when its journal or its car does.</summary>
    Task<IReadOnlyDictionary<int, string>> StampsAsync(CancellationToken cancellation);

    /// <summary>Adds the job under the next free number, which is returned with it.</summary>
    Task<Job> AddJobAsync(Job job, CancellationToken cancellation);

    /// <summary>Adds entries to a job, all or none; ids that are there already are passed over.</summary>
    Task AddEntriesAsync(Guid jobId, IReadOnlyCollection<Entry> entries, CancellationToken cancellation);

    /// <summary>Adds a whole record from elsewhere: car, kits, job, entries and photos, all or none. A job that is
    /// there already gets the union of entries, its car is changed by one that was written down later.</summary>
    Task<Job> MergeAsync(JobRecord record, CancellationToken cancellation);

    /// <summary>Keeps a photo with an entry of the job; one whose id is there already is passed over.</summary>
    Task AddPhotoAsync(Guid jobId, Photo photo, CancellationToken cancellation);

    /// <summary>The photos of a job with their bytes, in the order they came.</summary>
    Task<IReadOnlyList<Photo>> PhotosAsync(Guid jobId, CancellationToken cancellation);

    /// <summary>Which photos a job has, without their bytes: the id of each and the entry it belongs to.</summary>
    Task<IReadOnlyList<(Guid Photo, Guid Entry)>> PhotoListAsync(Guid jobId, CancellationToken cancellation);

    Task<Photo?> PhotoAsync(Guid jobId, Guid id, CancellationToken cancellation);
}
