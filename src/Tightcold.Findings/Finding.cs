using System.Collections.Immutable;
using Tightcold.Picture;
using Tightcold.Quantities;

namespace Tightcold.Findings;

/// <summary>What the journal says about one step: a sentence first, then numbers with their spread, what it rests
/// on, what can hurt, and what to do next. A pure function of car, kit and journal.</summary>
public sealed record Finding(Step Step, string Title, Certainty Certainty, Judgement Judgement, Phrase Verdict)
{
    /// <summary>Why, in one to three sentences; empty when the verdict says it all.</summary>
    public Phrase Why { get; init; } = Phrase.Empty;
    public ImmutableArray<Estimate> Estimates { get; init; } = [];

    /// <summary>Entries this rests on.</summary>
    public ImmutableArray<Guid> RestsOn { get; init; } = [];
    public ImmutableArray<Assumption> Assumptions { get; init; } = [];

    /// <summary>What is not known and would sharpen the answer.</summary>
    public ImmutableArray<Phrase> Missing { get; init; } = [];

    /// <summary>What can hurt, at this step.</summary>
    public ImmutableArray<Phrase> Cautions { get; init; } = [];

    /// <summary>At most three, best first.</summary>
    public ImmutableArray<NextAction> Next { get; init; } = [];

    /// <summary>Lines of a table (joints checked, cans and scale stops), each with its cells.</summary>
    public FindingTable? Table { get; init; }
}
