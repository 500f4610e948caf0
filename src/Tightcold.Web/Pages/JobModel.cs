using System.Collections.Immutable;
using Tightcold.Findings;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Web.Words;

namespace Tightcold.Web.Pages;

/// <summary>The job page: every step in the trade's order with its findings, and which are open.</summary>
/// <param name="Wrote">The entry that was just written, to be read back; or null.</param>
/// <param name="Asked">A step that a link asked to open; or null.</param>
public sealed record JobModel(JobSight Sight, Entry? Wrote, Step? Asked)
{
    public JobRecord Record => Sight.Picture.Record;
    public ImmutableArray<Finding> Findings => Sight.Findings;

    public NowLine Line { get; } = NowWords.Of(Sight.Picture);

    public Step Now => Line.Step;

    public IReadOnlyList<Finding> Of(Step step) => [.. Findings.Where(finding => finding.Step == step)];

    /// <summary>The step that matters now, the one asked for, and the one just written to.</summary>
    public bool IsOpen(Step step) =>
        step == Now || step == Asked || (Wrote is not null && StepWords.StepOf(Wrote.Kind) == step);

    public ImmutableArray<WorkTimer> Clocks => WorkTimers.Of(Sight.Picture);
}
