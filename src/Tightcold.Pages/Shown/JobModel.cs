using System.Collections.Immutable;
using Tightcold.Findings;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Circuit;
using Tightcold.Quantities;

using Tightcold.Pages.Asked;

namespace Tightcold.Pages.Shown;

/// <summary>A job as its pages show it: what to do now, and every step of the trade's order with its
/// findings.</summary>
/// <param name="Wrote">The entry that was just written, to be read back; or null.</param>
public sealed record JobModel(JobSight Sight, Entry? Wrote)
{
    public JobRecord Record => Sight.Picture.Record;
    public ImmutableArray<Finding> Findings => Sight.Findings;

    public NowLine Line { get; } = NowWords.Of(Sight.Picture);

    public Step Now => Line.Step;

    public IReadOnlyList<Finding> Of(Step step) => [.. Findings.Where(finding => finding.Step == step)];

    public ImmutableArray<WorkTimer> Clocks => WorkTimers.Of(Sight.Picture);

    /// <summary>What can hurt at the one thing to do. The other cautions stand at the step and at its form.</summary>
    public ImmutableArray<Phrase> Cautions =>
        Line.Action is { } action && Of(Now) is [var finding, ..] ? finding.CautionsAt(action.EntryKind) : [];

    /// <summary>What the entry that was just written means: the verdict of its step, where that rests on it.</summary>
    public Finding? Answers =>
        Wrote is { } wrote ? Findings.FirstOrDefault(finding => finding.RestsOn.Contains(wrote.Id)) : null;
}
