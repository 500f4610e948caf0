using System.Collections.Immutable;
using Tightcold.Findings.Steps;
using Tightcold.Jobs.Journals;

namespace Tightcold.Findings;

/// <summary>All findings of a job, in the order of the trade. The same record gives the same findings, bit for bit.</summary>
public static class Walk
{
    public static ImmutableArray<Finding> Of(JobRecord record) => Of(new JobViews(record));

    /// <summary>The same with earlier jobs of the car in sight, and with what was weighed kept for drawings.</summary>
    public static ImmutableArray<Finding> Of(JobViews views) => [.. Enum.GetValues<Step>().Select(step => Of(step, views))];

    /// <summary>One finding alone; what the others would weigh is left alone.</summary>
    public static Finding Of(Step step, JobViews views) => step switch
    {
        Step.ComplaintAndWeather => ComplaintFinding.Of(views.Record),
        Step.StandingPressure => StandingFinding.Of(views.Record),
        Step.RunningPressures => RunningFinding.Of(views.Record),
        Step.WhatIsWrong => views.Unweighed is { } evidence ? DiagnosisFinding.Unweighed(evidence) : Diagnosing.JobDiagnosis.Finding(views.Record, views.Diagnosis),
        Step.LeakSearch => LeakFinding.Of(views.Record, views.Leaks),
        Step.Recover => RecoverFinding.Of(views.Record),
        Step.Mend => MendFinding.Of(views.Record),
        Step.PumpDown => PumpDownFinding.Of(views.Record, views.Pump),
        Step.Hold => HoldFinding.Of(views.Record, views.Hold),
        Step.WeighIn => WeighInFinding.Of(views.Record),
        Step.ProveCold => ColdFinding.Of(views),
        _ => LedgerFinding.Of(views.Record),
    };

    /// <summary>The step that matters now: the one that the latest entry belongs to while it is not done, else the first
    /// step after it that is not done.</summary>
    public static Step Current(JobRecord record, ImmutableArray<Finding> findings)
    {
        // “What is wrong” only reads what other steps wrote: no entry belongs to it.
        var latest = findings.Where(finding => finding.RestsOn.Length > 0 && finding.Step != Step.WhatIsWrong)
            .MaxBy(finding => (finding.RestsOn.Max(id => record.Journal.Find(id)?.ObservedAt.UtcTicks ?? 0), finding.Step));
        if (latest is null) return Step.ComplaintAndWeather;
        return findings.Where(finding => finding.Step >= latest.Step).FirstOrDefault(finding => !IsDone(finding))?.Step ?? findings[^1].Step;
    }

    /// <summary>Some steps are done once their readings are written; a found leak leads on to recovery, a search without
    /// one goes on; the rest must have come out well.</summary>
    private static bool IsDone(Finding finding) => finding.RestsOn.Length > 0 && finding.Step switch
    {
        Step.ComplaintAndWeather or Step.StandingPressure or Step.RunningPressures or Step.WhatIsWrong => true,
        Step.LeakSearch => finding.Judgement is Judgement.Good or Judgement.Bad,
        _ => finding.Judgement == Judgement.Good,
    };
}
