using System.Collections.Immutable;
using Tightcold.Findings;
using Tightcold.Jobs.Journals;

namespace Tightcold.Web.Pages;

/// <summary>Computes the findings of a record.</summary>
internal sealed class FindingSource(Func<JobRecord, ImmutableArray<Finding>> of)
{
    public ImmutableArray<Finding> Of(JobRecord record) => of(record);
}
