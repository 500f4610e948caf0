using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Findings;

/// <summary>A small table that belongs to a finding: joints and outcomes, containers and masses.</summary>
public sealed record FindingTable(
    Phrase Caption,
    [Said] ImmutableArray<string> Columns,
    ImmutableArray<ImmutableArray<Phrase>> Rows
);
