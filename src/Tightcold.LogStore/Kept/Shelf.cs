using System.Collections.Immutable;
using System.Globalization;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Kits;
using Tightcold.LogStore.Lines;
using Tightcold.Quantities;

namespace Tightcold.LogStore.Kept;

/// <summary>What the lines of the log make, in memory: each act is put on it the same way, whether it was just written
/// or is read when the log is opened. What is damaged is taken off, and nothing more is put to it.</summary>
internal sealed class Shelf
{
    private readonly Dictionary<Guid, KeptCar> cars = [];
    private readonly Dictionary<Guid, Kit> kits = [];
    private readonly Dictionary<Guid, KeptJob> jobs = [];
    private readonly SortedDictionary<int, KeptJob> numbered = [];
    private readonly Dictionary<Guid, (Guid JobId, Entry Entry)> entries = [];
    private readonly Dictionary<Guid, KeptPhoto> photos = [];
    private readonly Dictionary<(string What, Guid Id), LogDamage> broken = [];
    private readonly Dictionary<int, Guid> carsOfBroken = [];
    private ImmutableArray<Kit>? own;

    public IEnumerable<KeptCar> Cars => cars.Values;

    /// <summary>The workshop's own kits, the oldest first.</summary>
    public ImmutableArray<Kit> Kits => own ??= KitsOfJob.Sorted(kits.Values);

    /// <summary>Jobs that are not damaged, by number.</summary>
    public IReadOnlyDictionary<int, KeptJob> Numbered => numbered;

    /// <summary>Whoever is left out.</summary>
    public IEnumerable<LogDamage> Broken => broken.Values;

    public KeptCar? Car(Guid id) => cars.GetValueOrDefault(id);

    public Kit? Kit(Guid id) => kits.GetValueOrDefault(id);

    public KeptJob? Job(Guid id) => jobs.GetValueOrDefault(id);

    public (Guid JobId, Entry Entry)? Entry(Guid id) => entries.TryGetValue(id, out var entry) ? entry : null;

    public KeptPhoto? Photo(Guid id) => photos.GetValueOrDefault(id);

    public LogDamage? BrokenJob(Guid id) => broken.GetValueOrDefault((LogSubject.Job, id));

    public LogDamage? BrokenJob(int number) =>
        broken.Values.FirstOrDefault(damage => damage.Of is { What: LogSubject.Job } of && of.Number == number);

    /// <summary>The car of a damaged job, where what is left of it says so.</summary>
    public Guid? CarOfBroken(int number) => carsOfBroken.TryGetValue(number, out var car) ? car : null;

    /// <summary>Numbers that are given, those of damaged jobs too: they stand on cards.</summary>
    public IEnumerable<int> Numbers =>
        numbered.Keys.Concat(
            broken.Values.Where(damage => damage.Of!.What == LogSubject.Job).Select(damage => damage.Of!.Number)
        );

    /// <param name="at">Where the line begins in the file.</param>
    /// <param name="bodiesAt">Where the bytes of its photos begin.</param>
    public void Put(LogAct act, long at, long bodiesAt)
    {
        if (act.Car is { } car)
        {
            cars[car.Id] = new(car);
            broken.Remove((LogSubject.Car, car.Id));
        }
        if (act.Kit is { } kit)
        {
            kits[kit.Id] = kit;
            own = null;
            broken.Remove((LogSubject.Kit, kit.Id));
        }
        if (act.OfJob is not { } of)
            return;
        if (act.Job is { } opened)
            Open(act, opened, at);
        if (jobs.TryGetValue(of.Id, out var job))
            PutTo(job, act, of, at, bodiesAt);
        else if (BrokenJob(of.Id) is null)
            Break(of, at, "its opening is missing");
    }

    private void Open(LogAct act, Jobs.Journals.Job opened, long at)
    {
        var of = LogSubject.Of(opened);
        if (act.Anew)
            TakeOff(of);
        else if (BrokenJob(opened.Id) is not null)
            return;
        if (jobs.ContainsKey(opened.Id) || numbered.ContainsKey(opened.Number))
        {
            Break(of, at, "it is opened twice");
            return;
        }
        broken.Remove((LogSubject.Job, opened.Id));
        numbered[opened.Number] = jobs[opened.Id] = new(opened);
    }

    private void PutTo(KeptJob job, LogAct act, LogSubject of, long at, long bodiesAt)
    {
        job.KitsSince = act.KitsSince ?? job.KitsSince;
        foreach (var kit in act.Brought)
            job.Add(kit);
        foreach (var entry in act.Entries)
        {
            if (entries.TryAdd(entry.Id, (of.Id, entry)))
                job.Add(entry);
            else if (entries[entry.Id] != (of.Id, entry))
            {
                Break(of, at, "an entry stands there twice");
                return;
            }
        }
        foreach (var head in act.Photos)
        {
            var photo = new KeptPhoto(of.Id, head, bodiesAt);
            bodiesAt += head.TextLength + 1;
            if (photos.TryAdd(head.Id, photo))
                job.Add(photo);
        }
    }

    /// <summary>Leaves out whose line is not as it was written.</summary>
    public void Break(LogSubject of, long at, Phrase why)
    {
        TakeOff(of);
        broken[(of.What, of.Id)] = new(
            of,
            at,
            Phrase.Of(
                $"{of.Name} cannot be read: {why} (byte {at.ToString(CultureInfo.InvariantCulture)} of the log). "
                    + $"It is left out; nothing was overwritten."
            )
        );
    }

    private void TakeOff(LogSubject of)
    {
        if (of.What == LogSubject.Car)
            cars.Remove(of.Id);
        else if (of.What == LogSubject.Kit && kits.Remove(of.Id))
            own = null;
        else if (of.What == LogSubject.Job && jobs.Remove(of.Id, out var job))
        {
            numbered.Remove(job.Job.Number);
            carsOfBroken[job.Job.Number] = job.Job.CarId;
            foreach (var entry in job.Arrived)
                entries.Remove(entry.Id);
            foreach (var photo in job.Photos)
                photos.Remove(photo.Head.Id);
        }
    }
}
