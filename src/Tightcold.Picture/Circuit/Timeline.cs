using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;

namespace Tightcold.Picture.Circuit;

/// <summary>What is in the circuit from when to when, worked out once from the standing journal in the order of
/// observing. Everything that depends on “what is inside now” asks here and nowhere else.</summary>
public sealed class Timeline
{
    private readonly ImmutableDictionary<Guid, int> places;

    private Timeline(ImmutableArray<Moment> moments)
    {
        Moments = moments;
        places = moments
            .Select((moment, index) => (moment.Entry.Id, index))
            .ToImmutableDictionary(pair => pair.Id, pair => pair.index);
        Doubted = moments
            .Where(moment => moment.Doubt is not null)
            .ToImmutableDictionary(moment => moment.Entry.Id, moment => moment.Doubt!.Value);
    }

    /// <summary>An entry, what stood before it, and what stands after.</summary>
    public readonly record struct Moment(Entry Entry, CircuitState Before, CircuitState After, Doubt? Doubt);

    public ImmutableArray<Moment> Moments { get; }

    /// <summary>Readings that cannot be: named, and judged by nothing else.</summary>
    public ImmutableDictionary<Guid, Doubt> Doubted { get; }

    public CircuitState Now => Moments.Length == 0 ? CircuitState.AtTheStart : Moments[^1].After;

    /// <summary>State just before an entry that stands.</summary>
    public CircuitState Before(Entry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return Moments[places[entry.Id]].Before;
    }

    /// <summary>State after an entry that stands.</summary>
    public CircuitState After(Entry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return Moments[places[entry.Id]].After;
    }

    /// <summary>State at a moment, after all that was observed by then.</summary>
    public CircuitState At(DateTimeOffset moment)
    {
        var state = CircuitState.AtTheStart;
        foreach (var one in Moments)
        {
            if (one.Entry.ObservedAt > moment)
                break;
            state = one.After;
        }
        return state;
    }

    /// <summary>Whether an entry stands and can be believed.</summary>
    public bool Believes(Entry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return places.ContainsKey(entry.Id) && !Doubted.ContainsKey(entry.Id);
    }

    /// <summary>Believed entries of a kind.</summary>
    public IEnumerable<Entry> OfKind(string kind) =>
        Moments.Where(moment => moment.Doubt is null && moment.Entry.Kind == kind).Select(moment => moment.Entry);

    public static Timeline Of(JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        var moments = ImmutableArray.CreateBuilder<Moment>(record.Journal.Standing.Length);
        var state = CircuitState.AtTheStart;
        foreach (var entry in record.Journal.Standing)
        {
            var doubt = Doubts.Of(record, entry);
            var after = doubt is null ? Effects.Of(record, entry, state) : state;
            moments.Add(new(entry, state, after, doubt));
            state = after;
        }
        return new(moments.ToImmutable());
    }
}
