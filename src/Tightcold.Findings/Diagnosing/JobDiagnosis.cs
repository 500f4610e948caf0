using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.NextTest;
using Tightcold.Jobs.Journals;

namespace Tightcold.Findings.Diagnosing;

/// <summary>What the journal's readings say of the car's faults, and what to test next.</summary>
public sealed record JobDiagnosis(JobEvidence Evidence, FaultOdds Answer, ImmutableArray<TestValue> Tests)
{
    // Above these odds more reading tells nothing that mending would not.
    private const double SureEnough = 0.98;

    /// <summary>The job's seed makes it repeatable; null while there are no readings.</summary>
    /// <param name="before">What was weighed with the same effort when the same job's journal was shorter: weighing costs a
    /// second, and a note changes nothing.</param>
    public static JobDiagnosis? Of(JobRecord record, Effort effort, JobDiagnosis? before = null)
    {
        ArgumentNullException.ThrowIfNull(record);
        if (JobEvidence.Of(record) is not { } evidence || evidence.Evidence.IsEmpty) return null;
        if (before is not null && evidence.Evidence.SaysTheSameAs(before.Evidence.Evidence)) return before with { Evidence = evidence };
        var seed = (ulong)(uint)record.Job.Seed;
        var answer = Diagnoser.Diagnose(evidence.Evidence, effort, seed);
        return new(evidence, answer, answer.Leading.Odds > SureEnough && !answer.Leading.Hypothesis.IsNoneOfThese ? [] : NextTests.Of(answer, seed));
    }

    /// <summary>The evidence that would have to be weighed; null while there is none, or when it was weighed before.</summary>
    public static JobEvidence? Unweighed(JobRecord record, JobDiagnosis? before)
    {
        if (JobEvidence.Of(record) is not { } evidence || evidence.Evidence.IsEmpty) return null;
        return before is not null && evidence.Evidence.SaysTheSameAs(before.Evidence.Evidence) ? null : evidence;
    }

    /// <summary>The finding of a diagnosis, or what it lacks.</summary>
    public static Finding Finding(JobDiagnosis? diagnosis) => diagnosis is null ? Steps.DiagnosisFinding.NothingYet() : Steps.DiagnosisFinding.Of(diagnosis);

    /// <summary>The same of a job's views, which may have left the weighing out.</summary>
    public static Finding Finding(JobViews views)
    {
        ArgumentNullException.ThrowIfNull(views);
        return views.Unweighed is { } evidence ? Steps.DiagnosisFinding.Unweighed(evidence) : Finding(views.Diagnosis);
    }
}
