using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Picture;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;

namespace Tightcold.Findings;

/// <summary>What the journal says about one step: a sentence first, then numbers with their spread, what it rests
/// on, what can hurt, and what to do next. A pure function of car, kit and journal.</summary>
public sealed record Finding(Step Step, [Said] string Title, Certainty Certainty, Judgement Judgement, Phrase Verdict)
{
    /// <summary>Why, in one to three sentences; empty when the verdict says it all.</summary>
    public Phrase Why { get; init; } = Phrase.Empty;
    public ImmutableArray<Estimate> Estimates { get; init; } = [];

    /// <summary>Entries this rests on.</summary>
    public ImmutableArray<Guid> RestsOn { get; init; } = [];
    public ImmutableArray<Assumption> Assumptions { get; init; } = [];

    /// <summary>What is not known and would sharpen the answer.</summary>
    public ImmutableArray<Phrase> Missing { get; init; } = [];

    /// <summary>What can hurt at this step: the worst first, each hazard once.</summary>
    public ImmutableArray<Caution> Hazards { get; init; } = [];

    /// <summary>The same as sentences.</summary>
    public ImmutableArray<Phrase> Cautions => [.. Hazards.Select(hazard => hazard.Says)];

    /// <summary>How many of them stand open at the act; the others are read on: all that is about this moment, and the
    /// worst of the rest.</summary>
    public int OpenCautions => Math.Min(Hazards.Length, Hazards.Count(hazard => hazard.Stops) + 1);

    /// <summary>What can hurt at one act of this step: what stops, and the worst of the rest. The dangers of test pressure
    /// are none of a vacuum gauge's.</summary>
    public ImmutableArray<Phrase> CautionsAt(string? kind)
    {
        var here = Hazards
            .Where(hazard => BringsNitrogen(kind) || hazard.Key is not (NitrogenKey or "no-air"))
            .ToArray();
        return [.. here.Take(here.Count(hazard => hazard.Stops) + 1).Take(2).Select(hazard => hazard.Says)];
    }

    internal const string NitrogenKey = "nitrogen";

    internal static bool BringsNitrogen(string? kind) =>
        kind is EntryKinds.PressureTest or EntryKinds.LeakSearch or EntryKinds.LeakCheck;

    /// <summary>The law of the place on the acts of this step; what keeps this person from one first.</summary>
    public ImmutableArray<LawLine> Law { get; init; } = [];

    /// <summary>At most three, best first.</summary>
    public ImmutableArray<NextAction> Next { get; init; } = [];

    /// <summary>Lines of a table (joints checked, cans and scale stops), each with its cells.</summary>
    public FindingTable? Table { get; init; }
}
