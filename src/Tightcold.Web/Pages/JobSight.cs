using System.Collections.Immutable;
using Tightcold.Findings;

namespace Tightcold.Web.Pages;

/// <summary>A job as its page sees it: the findings, and what they were weighed from for the drawings.</summary>
/// <param name="IsWhole">False at a glance: the faults are not weighed yet.</param>
public sealed record JobSight(JobViews Views, ImmutableArray<Finding> Findings, bool IsWhole);
