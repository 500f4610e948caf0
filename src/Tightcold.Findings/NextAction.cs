using Tightcold.Quantities;

namespace Tightcold.Findings;

/// <summary>Something to do next: what it would tell, and what it costs in minutes.</summary>
/// <param name="EntryKind">The entry that would record it, so that a screen can offer the form; or null.</param>
public sealed record NextAction(Phrase What, Phrase Tells, int Minutes, string? EntryKind = null);
