using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Procedures.Rules;

/// <summary>The lines of one place, or of several under one law.</summary>
/// <param name="Key">Name of its file.</param>
/// <param name="Name">What a person reads.</param>
/// <param name="Covers">Codes of ISO 3166.</param>
/// <param name="Under">The book that holds what this one does not say; null for a book that answers every
/// question.</param>
/// <param name="Authority">Whom to ask.</param>
/// <param name="Lines">Most important first within a question.</param>
public sealed record Book(
    string Key,
    [Said] string Name,
    ImmutableArray<string> Covers,
    string? Under,
    [Said] string Authority,
    ImmutableArray<RuleLine> Lines
);
