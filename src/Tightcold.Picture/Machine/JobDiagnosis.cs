using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.NextTest;
using Tightcold.Jobs.Journals;

namespace Tightcold.Picture.Machine;

/// <summary>What the journal's readings say of the car's faults, and what to test next.</summary>
public sealed record JobDiagnosis(JobEvidence Evidence, FaultOdds Answer, ImmutableArray<TestValue> Tests)
{
    // Above these odds more reading tells nothing that mending would not.
    private const double SureEnough = 0.98;

    /// <summary>The job's seed makes it repeatable; null while there are no readings, or while an
    /// identifier says that they were not taken on the label's refrigerant.</summary>
    public static JobDiagnosis? Of(JobPicture picture, Effort effort)
    {
        ArgumentNullException.ThrowIfNull(picture);
        return picture.Evidence is { Otherwise: null } evidence ? Of(picture.Record, evidence, effort) : null;
    }

    /// <summary>What there is to weigh; null while there are no readings.</summary>
    internal static JobEvidence? ToWeigh(JobPicture picture) =>
        JobEvidence.Of(picture) is { Evidence.IsEmpty: false } evidence ? evidence : null;

    internal static JobDiagnosis Of(JobRecord record, JobEvidence evidence, Effort effort)
    {
        var seed = (ulong)(uint)record.Job.Seed;
        var answer = Diagnoser.Diagnose(evidence.Evidence, effort, seed);
        return new(
            evidence,
            answer,
            answer.Leading.Odds > SureEnough && !answer.Leading.Hypothesis.IsNoneOfThese
                ? []
                : NextTests.Of(answer, seed)
        );
    }

    /// <summary>The same answer where later evidence of the same job says the same: weighing costs a second, and a note
    /// changes nothing. Else null.</summary>
    internal JobDiagnosis? For(JobEvidence evidence) =>
        evidence.Evidence.SaysTheSameAs(Evidence.Evidence) ? this with { Evidence = evidence } : null;
}
