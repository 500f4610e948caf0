using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;

namespace Tightcold.Jobs.Journals;

/// <summary>The entries of a job. The order of arrival does not matter: entries are ordered by the time of
/// observing, equal times by when they were written down. What is superseded stays visible and influences
/// nothing.</summary>
public sealed class Journal
{
    public static readonly Journal Empty = new([]);

    private readonly ImmutableDictionary<Guid, Entry> byId;
    private readonly ImmutableHashSet<Guid> struck;

    private Journal(IEnumerable<Entry> entries)
    {
        // What is told with one moment happened in the order in which it was written down.
        All =
        [
            .. entries
                .OrderBy(entry => entry.ObservedAt.UtcTicks)
                .ThenBy(entry => entry.WrittenAt.UtcTicks)
                .ThenBy(entry => entry.Id),
        ];
        byId = All.ToImmutableDictionary(entry => entry.Id);
        (var standing, struck) = Resolve();
        Standing = [.. All.Where(entry => standing.Contains(entry.Id))];
    }

    /// <summary>Everything ever written, in the order of observing.</summary>
    public ImmutableArray<Entry> All { get; }

    /// <summary>What counts: not superseded, not a mere strike.</summary>
    public ImmutableArray<Entry> Standing { get; }

    public Entry? Find(Guid id) => byId.GetValueOrDefault(id);

    public bool IsStruck(Guid id) => struck.Contains(id);

    public IEnumerable<Entry> OfKind(string kind) => Standing.Where(entry => entry.Kind == kind);

    public Entry? Last(string kind) => Standing.LastOrDefault(entry => entry.Kind == kind);

    /// <summary>The latest moment at which something was written, or null for an empty journal.</summary>
    public DateTimeOffset? LastWritten => All.Length == 0 ? null : All.Max(entry => entry.WrittenAt);

    /// <summary>Builds a journal, or says why these entries are none: an id twice with different content, a
    /// circle of corrections.</summary>
    public static (Journal? Journal, IReadOnlyList<InputProblem> Problems) Create(IEnumerable<Entry> entries)
    {
        var problems = new List<InputProblem>();
        var unique = new Dictionary<Guid, Entry>();
        foreach (var entry in entries)
        {
            if (!unique.TryAdd(entry.Id, entry) && unique[entry.Id] != entry)
                problems.Add(
                    InputProblem.Of(
                        "id",
                        entry.Id.ToString(),
                        $"two different entries carry this id; each needs its own"
                    )
                );
        }
        foreach (var entry in unique.Values)
            if (IsInCircle(entry, unique))
                problems.Add(
                    InputProblem.Of("supersedes", entry.Id.ToString(), $"corrections may not run in a circle")
                );
        return problems.Count > 0 ? (null, problems) : (new Journal(unique.Values), problems);
    }

    /// <summary>Union with another device's entries: no loss, no doubling.</summary>
    public (Journal? Journal, IReadOnlyList<InputProblem> Problems) Union(IEnumerable<Entry> others) =>
        Create(All.Concat(others));

    private static bool IsInCircle(Entry start, Dictionary<Guid, Entry> entries)
    {
        var steps = 0;
        for (
            var next = start.Supersedes;
            next is { } id && entries.TryGetValue(id, out var entry);
            next = entry.Supersedes
        )
            if (id == start.Id || ++steps > entries.Count)
                return true;
        return false;
    }

    /// <summary>Entries that correct each other form a tree, of which at most one counts. Of several corrections of
    /// one entry the one written last holds (equal times: the larger id). A strike makes its entry as if it had never
    /// been written: a struck reading counts no more, a struck correction gives way to what it corrected, and a
    /// struck strike is taken back.</summary>
    private (HashSet<Guid> Standing, ImmutableHashSet<Guid> Struck) Resolve()
    {
        var corrections = All.Where(entry => entry.Supersedes is { } id && byId.ContainsKey(id))
            .ToLookup(entry => entry.Supersedes!.Value);
        var fromRoots = All.Where(entry => entry.Supersedes is not { } id || !byId.ContainsKey(id)).ToList();
        var roots = fromRoots.Count;
        for (var i = 0; i < fromRoots.Count; i++)
            fromRoots.AddRange(corrections[fromRoots[i].Id]);

        // What stands in the place of an entry; nothing when it is as if never written.
        var inPlace = new Dictionary<Guid, Entry?>();
        for (var i = fromRoots.Count - 1; i >= 0; i--)
        {
            var entry = fromRoots[i];
            var last = corrections[entry.Id]
                .OrderByDescending(rival => rival.WrittenAt.UtcTicks)
                .ThenByDescending(rival => rival.Id)
                .Select(rival => inPlace[rival.Id])
                .FirstOrDefault(rival => rival is not null);
            inPlace[entry.Id] =
                last is null ? entry
                : last.Kind == EntryKinds.Struck ? null
                : last;
        }
        var standing = fromRoots
            .Take(roots)
            .Select(root => inPlace[root.Id])
            .OfType<Entry>()
            .Where(entry => entry.Kind != EntryKinds.Struck)
            .Select(entry => entry.Id)
            .ToHashSet();
        return (
            standing,
            [
                .. All.Where(entry =>
                        entry.Kind == EntryKinds.Struck ? inPlace[entry.Id] is null : !standing.Contains(entry.Id)
                    )
                    .Select(entry => entry.Id),
            ]
        );
    }
}
