using System.Collections.Immutable;
using Tightcold.Loop;
using Tightcold.Quantities;

namespace Tightcold.App.Expectation;

/// <summary>What to expect at gauges, lines and vents, side by side, with what it rests on.</summary>
public sealed record ExpectationSheet(
    LoopModel Model,
    LoopConditions Conditions,
    ImmutableArray<ExpectedColumn> Columns,
    ImmutableArray<Phrase> Assumptions
);
