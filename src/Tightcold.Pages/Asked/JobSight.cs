using System.Collections.Immutable;
using Tightcold.Findings;
using Tightcold.Picture;

namespace Tightcold.Pages.Asked;

/// <summary>A job as its page sees it: the findings, and what they were weighed from for the drawings.</summary>
/// <param name="IsWhole">False at a glance: the faults are not weighed yet.</param>
public sealed record JobSight(JobPicture Picture, ImmutableArray<Finding> Findings, bool IsWhole);
