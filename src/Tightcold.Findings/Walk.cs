using System.Collections.Immutable;
using Tightcold.Findings.Steps;
using Tightcold.Jobs.Journals;

namespace Tightcold.Findings;

/// <summary>All findings of a job, in the order of the trade. The same record gives the same findings, bit for bit.</summary>
public static class Walk
{
    public static ImmutableArray<Finding> Of(JobRecord record) =>
    [
        ComplaintFinding.Of(record), StandingFinding.Of(record), RunningFinding.Of(record), LeakFinding.Of(record),
        RecoverFinding.Of(record), MendFinding.Of(record), PumpDownFinding.Of(record), HoldFinding.Of(record),
        WeighInFinding.Of(record), ColdFinding.Of(record), LedgerFinding.Of(record),
    ];

    /// <summary>The step that matters now: the first one whose finding is still open or bad after the last done one.</summary>
    public static Step Current(ImmutableArray<Finding> findings)
    {
        var last = findings.LastOrDefault(finding => finding.Certainty != Certainty.NothingYet);
        if (last is null) return Step.ComplaintAndWeather;
        return last.Judgement == Judgement.Good && last.Step != Step.Ledger ? last.Step + 1 : last.Step;
    }
}
