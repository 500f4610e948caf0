using System.Collections.Immutable;
using System.Text;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Exchange;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Jobs.Photos;
using Tightcold.LogStore.Kept;
using Tightcold.LogStore.Lines;
using Tightcold.Quantities;

namespace Tightcold.LogStore;

public sealed partial class JobLog
{
    private LinePlace next;

    /// <summary>Bytes of the file that are known to be lines: what it ends with after every call.</summary>
    private long end;

    /// <summary>Part of a failed writing is still behind <see cref="end"/>, because cutting it off failed
    /// too.</summary>
    private bool isTorn;

    public Task SaveCarAsync(Car car, CancellationToken cancellation) =>
        Asked(() => shelf.Car(car.Id)?.Sum == KeptCar.SumOf(car) || Write(new() { Car = car }, []), cancellation);

    public Task MergeCarAsync(Car car, CancellationToken cancellation) =>
        Asked(
            () =>
                shelf.Car(car.Id) is { } there && !CarVersion.Supersedes(car, there.Car)
                || Write(new() { Car = car }, []),
            cancellation
        );

    public Task AddKitAsync(Kit kit, CancellationToken cancellation) =>
        Asked(() => shelf.Kit(kit.Id) is not null || Write(new() { Kit = kit }, []), cancellation);

    public Task<Job> AddJobAsync(Job job, CancellationToken cancellation) =>
        Asked(
            () =>
            {
                // The same job sent again, after an answer that got lost.
                if (Whole(job.Id) is { } there)
                    return there.Job;
                Write(Opened(job with { Number = NextNumber() }, null), []);
                return shelf.Job(job.Id)!.Job;
            },
            cancellation
        );

    public Task AddEntriesAsync(Guid jobId, IReadOnlyCollection<Entry> entries, CancellationToken cancellation) =>
        Asked(
            () =>
            {
                var job = Whole(jobId)
                    ?? throw new LogStoreException(
                        Phrase.Of($"The job {jobId.ToString()} is not in the log; nothing was added.")
                    );
                return Write(
                    new() { OfJob = LogSubject.Of(job.Job), Entries = Missing(job.Job, job.Arrived, entries) },
                    []
                );
            },
            cancellation
        );

    public Task AddPhotoAsync(Guid jobId, Photo photo, CancellationToken cancellation) =>
        Asked(
            () =>
            {
                var job = Whole(jobId)
                    ?? throw new LogStoreException(
                        Phrase.Of($"The job {jobId.ToString()} is not in the log; no photo was added.")
                    );
                return shelf.Entry(photo.Entry)?.JobId == jobId
                    ? Write(new() { OfJob = LogSubject.Of(job.Job) }, Missing(jobId, [photo]))
                    : throw new LogStoreException(
                        Phrase.Of($"The entry {photo.Entry.ToString()} is not in the log; no photo was added.")
                    );
            },
            cancellation
        );

    /// <inheritdoc/>
    /// <remarks>A job that is damaged here is taken in as if it were new, in place of what is left of it.</remarks>
    public Task<Job> MergeAsync(JobRecord record, CancellationToken cancellation) =>
        Asked(
            () =>
            {
                var there = shelf.Job(record.Job.Id);
                var job = there?.Job ?? record.Job with { Number = NumberOf(record.Job) };
                var act = (there is null ? Opened(job, record) : Known(there, record)) with
                {
                    Entries = Missing(job, there?.Arrived ?? [], record.InArrival),
                };
                if (shelf.Car(record.Car.Id) is not { } car || CarVersion.IsLater(record.Car, car.Car))
                    act = act with { Car = record.Car };
                Write(act, Missing(job.Id, record.Photos));
                return shelf.Job(job.Id)!.Job;
            },
            cancellation
        );

    /// <param name="from">The record it comes with from elsewhere; null for a job of this workshop.</param>
    private LogAct Opened(Job job, JobRecord? from)
    {
        if (shelf.Car(job.CarId) is null && from?.Car.Id != job.CarId)
            throw new LogStoreException(Phrase.Of($"The car {job.CarId.ToString()} is not there; no job was added."));
        var act = new LogAct
        {
            OfJob = LogSubject.Of(job),
            Job = job,
            Anew = shelf.BrokenJob(job.Id) is not null,
        };
        return from is null || shelf.Kits.Select(kit => kit.Id).ToHashSet().SetEquals(from.Kits.Select(kit => kit.Id))
            ? act
            : act with
            {
                KitsSince = KitsOfJob.Since(shelf.Kits),
                Brought = Once(from.Kits),
            };
    }

    /// <summary>What a record from elsewhere adds to the kits of a job that is here.</summary>
    private LogAct Known(KeptJob job, JobRecord from)
    {
        var known = job.Kits(shelf.Kits);
        var missing = Once(from.Kits.Where(kit => known.All(there => there.Id != kit.Id)));
        var act = new LogAct { OfJob = LogSubject.Of(job.Job), Brought = missing };
        return missing.IsEmpty || job.KitsSince is not null
            ? act
            : act with
            {
                KitsSince = KitsOfJob.Since(shelf.Kits),
                Brought = [.. known, .. missing],
            };
    }

    private static ImmutableArray<Kit> Once(IEnumerable<Kit> kits) => [.. kits.DistinctBy(kit => kit.Id)];

    /// <summary>The number is a wish; a damaged job comes back under its own.</summary>
    private int NumberOf(Job job) =>
        shelf.BrokenJob(job.Id) is { } broken ? broken.Of!.Number
        : job.Number < 1 || shelf.Numbers.Contains(job.Number) ? NextNumber()
        : job.Number;

    private int NextNumber() =>
        shelf.Numbers.DefaultIfEmpty(0).Max() is < int.MaxValue and var most
            ? most + 1
            : throw new LogStoreException("The numbers for jobs are used up; no job was added.");

    private KeptJob? Whole(Guid jobId) =>
        shelf.BrokenJob(jobId) is { } broken ? throw new LogStoreException(broken.Says) : shelf.Job(jobId);

    /// <summary>Entries that are not there yet, each once.</summary>
    private ImmutableArray<Entry> Missing(Job job, IReadOnlyList<Entry> arrived, IReadOnlyCollection<Entry> entries)
    {
        var missing = new Dictionary<Guid, Entry>();
        foreach (var entry in entries)
            if (
                shelf.Entry(entry.Id) is { } there
                    ? there != (job.Id, entry)
                    : !missing.TryAdd(entry.Id, entry) && missing[entry.Id] != entry
            )
                throw new LogStoreException(
                    Phrase.Of(
                        $"Another entry with the id {entry.Id.ToString()} is in the log already; nothing was added."
                    )
                );
        if (missing.Count > 0 && Journal.Create(arrived.Concat(missing.Values)).Journal is null)
            throw new LogStoreException(
                Phrase.Of($"The corrections of {LogSubject.Of(job).Name} would run in a circle; nothing was added.")
            );
        return [.. entries.Where(entry => missing.Remove(entry.Id))];
    }

    /// <summary>Photos that are not there yet, each once. Sent again one may come later; what was kept first
    /// counts.</summary>
    private ImmutableArray<Photo> Missing(Guid jobId, IReadOnlyCollection<Photo> photos)
    {
        var missing = new Dictionary<Guid, Photo>();
        foreach (var photo in photos)
        {
            var (entry, digest, job) =
                shelf.Photo(photo.Id) is { } there ? (there.Head.Entry, there.Head.Digest, there.JobId)
                : missing.TryAdd(photo.Id, photo) ? (photo.Entry, photo.Digest, jobId)
                : (missing[photo.Id].Entry, missing[photo.Id].Digest, jobId);
            if (job != jobId || entry != photo.Entry || digest != photo.Digest)
                throw new LogStoreException(
                    Phrase.Of(
                        $"Another photo with the id {photo.Id.ToString()} is in the log already; nothing was added."
                    )
                );
        }
        return [.. missing.Values];
    }

    /// <summary>Writes an act down, all or none, and puts it on the shelf as it will be read again. Nothing to write is
    /// no line.</summary>
    private bool Write(LogAct act, ImmutableArray<Photo> photos)
    {
        act = act with { Photos = [.. photos.Select(PhotoHead.Of)] };
        if (act.IsEmpty)
            return true;
        var text = LogLine.Write(act, next);
        if (text.Length > LogLine.MostBytes)
            throw new LogStoreException("This is too much for one line of the log; nothing was written.");
        if (LogLine.Read(text)?.Line is not { Act: { } read } line)
            throw new LogStoreException(
                Phrase.Of(
                    $"This could not be read again ({LogLine.Read(text)?.Line.Trouble ?? Phrase.Empty}); nothing was "
                        + $"written."
                )
            );
        var head = end == 0 ? LogLine.Head + "\n" : "";
        var bytes = new List<byte>(head.Length + text.Length + 1);
        bytes.AddRange(Encoding.UTF8.GetBytes(head));
        var at = end + bytes.Count;
        bytes.AddRange(text);
        bytes.Add((byte)'\n');
        var bodiesAt = end + bytes.Count;
        foreach (var photo in photos)
            bytes.AddRange(Encoding.ASCII.GetBytes(Convert.ToBase64String(photo.Body.AsSpan()) + "\n"));
        Append([.. bytes]);
        next = line.Next;
        shelf.Put(read, at, bodiesAt);
        return true;
    }

    private void Append(byte[] bytes)
    {
        if (file.Length != end && !isTorn)
            throw new LogStoreException(
                "Somebody else wrote into the log meanwhile; nothing was written. Open it again."
            );
        CutBack();
        try
        {
            file.Append(bytes);
        }
        catch
        {
            isTorn = true;
            try
            {
                CutBack();
            }
            catch (Exception trouble) when (trouble is not OutOfMemoryException)
            {
                // Said is what kept it from being written; the rest is cut before the next writing or opening.
            }
            throw;
        }
        end += bytes.Length;
    }

    private void CutBack()
    {
        if (isTorn && file.Length != end)
            file.Cut(end);
        isTorn = false;
    }
}
