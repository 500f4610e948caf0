using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Entries;

/// <summary>A fact with a time: something observed or something done. Never changed, never erased; a wrong one is
/// superseded by a later one.</summary>
/// <param name="Id">Made by the writer, so that two devices can add at once.</param>
/// <param name="Kind">Name of a schema in <see cref="EntryKinds"/>.</param>
/// <param name="ObservedAt">When it was seen or done: decides the order.</param>
/// <param name="WrittenAt">When it was written down.</param>
/// <param name="Who">Stays on this machine and in the person's own exports.</param>
/// <param name="Fields">What was observed or done.</param>
/// <param name="Supersedes">The entry that this one replaces or strikes, or null.</param>
/// <param name="Reason">Why the other was wrong; needed with <paramref name="Supersedes"/>.</param>
public sealed record Entry(
    Guid Id,
    string Kind,
    DateTimeOffset ObservedAt,
    DateTimeOffset WrittenAt,
    string Who,
    FieldBag Fields,
    Guid? Supersedes = null,
    string? Reason = null
)
{
    public Schema Schema => EntryKinds.Get(Kind);

    /// <summary>The text of a field as a person reads it; null when it was not filled.</summary>
    public string? Reads(string field) =>
        Fields.Text(field) is { } stored ? Schema.Find(field)?.Reads(stored) ?? stored : null;

    /// <summary>What a person reads for a field of this entry, in any language; empty where it is left out.</summary>
    public Phrase Says(string field) =>
        Fields.Text(field) is { } stored ? Schema.Find(field)?.Says(stored) ?? Phrase.Verbatim(stored) : Phrase.Empty;
}
