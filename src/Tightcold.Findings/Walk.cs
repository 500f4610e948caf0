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

    /// <summary>The step that matters now: the one after the last that has entries, or that one itself while it is
    /// not done.</summary>
    public static Step Current(ImmutableArray<Finding> findings)
    {
        var last = findings.LastOrDefault(finding => finding.RestsOn.Length > 0);
        if (last is null) return Step.ComplaintAndWeather;
        var staysOpen = last.Step switch
        {
            // A found leak leads on to recovery; a search without one goes on.
            Step.LeakSearch => last.Judgement is Judgement.CannotTell or Judgement.Open,
            Step.PumpDown or Step.Hold or Step.WeighIn or Step.ProveCold => last.Judgement != Judgement.Good,
            _ => false,
        };
        return staysOpen ? last.Step : last.Step + 1;
    }
}
