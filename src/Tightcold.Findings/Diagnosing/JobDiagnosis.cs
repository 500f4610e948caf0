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

    /// <summary>The job's seed makes it repeatable; null while there are no readings, or while an
    /// identifier says that they were not taken on the label's refrigerant.</summary>
    /// <param name="earlier">Earlier jobs of the same car.</param>
    public static JobDiagnosis? Of(JobRecord record, Effort effort, ImmutableArray<JobRecord> earlier = default) => ToWeigh(record, earlier) is { Otherwise: null } evidence ? Of(record, evidence, effort) : null;

    /// <summary>What there is to weigh; null while there are no readings.</summary>
    internal static JobEvidence? ToWeigh(JobRecord record, ImmutableArray<JobRecord> earlier) => JobEvidence.Of(record, earlier) is { Evidence.IsEmpty: false } evidence ? evidence : null;

    internal static JobDiagnosis Of(JobRecord record, JobEvidence evidence, Effort effort)
    {
        var seed = (ulong)(uint)record.Job.Seed;
        var answer = Diagnoser.Diagnose(evidence.Evidence, effort, seed);
        return new(evidence, answer, answer.Leading.Odds > SureEnough && !answer.Leading.Hypothesis.IsNoneOfThese ? [] : NextTests.Of(answer, seed));
    }

    /// <summary>The same answer where later evidence of the same job says the same: weighing costs a second, and a note changes
    /// nothing. Else null.</summary>
    internal JobDiagnosis? For(JobEvidence evidence) => evidence.Evidence.SaysTheSameAs(Evidence.Evidence) ? this with { Evidence = evidence } : null;

    /// <summary>The finding of a diagnosis, or why there is none: no readings, or a refrigerant that is not the label's.</summary>
    public static Finding Finding(JobRecord record, JobDiagnosis? diagnosis)
    {
        if (diagnosis is not null) return Steps.DiagnosisFinding.Of(diagnosis);
        var evidence = JobEvidence.Of(record);
        var otherwise = evidence is null ? Identification.Otherwise(record, []) : evidence.Otherwise;
        return otherwise is null ? Steps.DiagnosisFinding.NothingYet() : Steps.DiagnosisFinding.NotTheLabels(record, otherwise);
    }
}
