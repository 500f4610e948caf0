using System.Collections.Immutable;
using Tightcold.Jobs.Journals;

namespace Tightcold.Findings;

/// <summary>All findings of a job, in the order of the trade. The same record gives the same findings, bit for bit.</summary>
public static class Walk
{
    public static ImmutableArray<Finding> Of(JobRecord record)
    {
        _ = record;
        return [];
    }

    /// <summary>The step that matters now: the first one whose finding is still open or bad after the last done one.</summary>
    public static Step Current(ImmutableArray<Finding> findings)
    {
        var last = findings.LastOrDefault(finding => finding.Certainty != Certainty.NothingYet);
        if (last is null) return Step.ComplaintAndWeather;
        return last.Judgement == Judgement.Good && last.Step != Step.Ledger ? last.Step + 1 : last.Step;
    }
}
