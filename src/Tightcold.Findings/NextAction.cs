using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Findings;

/// <summary>What an action does to the circuit, so that none is advised that its state forbids.</summary>
public enum Doing
{
    /// <summary>Looks, reads, writes down, mends beside the circuit.</summary>
    Looks,

    /// <summary>Turns the compressor.</summary>
    RunsCompressor,
    FillsIn,
    PullsVacuum,
    TakesOut,
}

/// <summary>Something to do next: what it would tell, what it costs in minutes, and the form that takes it down with
/// what is known of it already.</summary>
/// <param name="EntryKind">The entry that would record it, so that a screen can offer the form; or null.</param>
/// <param name="Does">What it does to the circuit.</param>
public sealed record NextAction(
    Phrase What,
    Phrase Tells,
    int Minutes,
    string? EntryKind = null,
    Doing Does = Doing.Looks
)
{
    /// <summary>What the form of <see cref="EntryKind"/> holds already: field and text.</summary>
    public ImmutableArray<(string Field, string Text)> Known { get; init; } = [];

    /// <summary>Where to begin in that form: a field, or a group of signs; null where nothing stands out.</summary>
    public string? First { get; init; }
}
