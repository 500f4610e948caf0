using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;

namespace Tightcold.LogStore.Kept;

/// <summary>A job as the lines of the log have made it so far.</summary>
internal sealed class KeptJob(Job job)
{
    private readonly List<Entry> arrived = [];
    private readonly List<Kit> brought = [];
    private readonly List<KeptPhoto> photos = [];
    private readonly ImmutableArray<ChainLink>.Builder chain = ImmutableArray.CreateBuilder<ChainLink>();
    private Journal? journal;

    public Job Job { get; } = job;

    /// <summary>Null where the workshop's own kit holds (<see cref="KitsOfJob"/>).</summary>
    public DateTimeOffset? KitsSince { get; set; }

    public IReadOnlyList<Entry> Arrived => arrived;

    /// <summary>In the order in which they were kept.</summary>
    public IReadOnlyList<KeptPhoto> Photos => photos;

    /// <summary>Made when somebody asks; null where the entries contradict each other, which no line that this room
    /// wrote makes them.</summary>
    public Journal? Journal => journal ??= Journal.Create(arrived).Journal;

    public void Add(Entry entry)
    {
        arrived.Add(entry);
        journal = null;
    }

    public void Add(Kit kit) => brought.Add(kit);

    public void Add(KeptPhoto photo)
    {
        // Few, and mostly the latest: an insertion is the whole sorting.
        var at = photos.Count;
        while (at > 0 && IsBefore(photo, photos[at - 1]))
            at--;
        photos.Insert(at, photo);
    }

    private static bool IsBefore(KeptPhoto one, KeptPhoto other) =>
        (one.Head.KeptAt, one.Head.Id).CompareTo((other.Head.KeptAt, other.Head.Id)) < 0;

    public ImmutableArray<Kit> Kits(ImmutableArray<Kit> own) => KitsOfJob.Of(KitsSince, own, brought);

    /// <summary>The links that the entries make in the order of their arrival; those of before are kept, for they never
    /// change.</summary>
    public ImmutableArray<ChainLink> Chain()
    {
        while (chain.Count < arrived.Count)
        {
            var entry = arrived[chain.Count];
            var before = chain.Count == 0 ? JournalChain.Start(Job) : chain[^1].Digest;
            chain.Add(new(entry.Id, JournalChain.Next(before, entry)));
        }
        return chain.ToImmutable();
    }

    public JobRecord Record(Car car, ImmutableArray<Kit> own, Journal read) =>
        new(car, Kits(own), Job, read) { Chain = Chain(), BringsKits = KitsSince is not null };

    public JobSummary Summary(Car car, Journal read) => JobSummary.Of(new(car, [], Job, read));
}
