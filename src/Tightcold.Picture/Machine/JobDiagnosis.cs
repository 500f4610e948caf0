using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.NextTest;
using Tightcold.Diagnosis.Priors;
using Tightcold.Jobs.Journals;

namespace Tightcold.Picture.Machine;

/// <summary>What the journal's readings say of the car's faults, and what to test next.</summary>
public sealed record JobDiagnosis(JobEvidence Evidence, FaultOdds Answer, ImmutableArray<TestValue> Tests)
{
    // Above these odds more reading tells nothing that mending would not.
    private const double SureEnough = 0.98;

    // Told for a sound car whose evidence is not three times likelier than such a fault's.
    private const double HardlyTold = 3;
    private const double WorthNaming = 0.003;
    private const int MostNamed = 3;

    /// <summary>Faults that a verdict of “nothing wrong” would still hide, the likeliest first: what was read and seen
    /// hardly tells them from a sound car. Empty where something is wrong.</summary>
    public ImmutableArray<Hypothesis> WouldHide
    {
        get
        {
            if (
                !Answer.ByFault()[0].Alone.IsNothingWrong
                || Answer.Beliefs.FirstOrDefault(one => one.Hypothesis.IsNothingWrong)
                    is not { Odds: > 0 } sound
            )
                return [];
            var told = sound.Odds / sound.Hypothesis.Prior;
            return
            [
                .. Answer
                    .Beliefs.Where(one =>
                        one.Hypothesis.Faults.Length == 1
                        && one.Odds >= WorthNaming
                        && told / (one.Odds / one.Hypothesis.Prior) < HardlyTold
                    )
                    .Take(MostNamed)
                    .Select(one => one.Hypothesis),
            ];
        }
    }

    // Below this a scale would find too little; the diagnosis' own line.
    private const double FullShare = 0.8;

    /// <summary>The least charge over the label's with which this car would still look sound, where a scale would call
    /// that too little; else null.</summary>
    public double? HiddenShortage =>
        Answer.ByFault()[0].Alone.IsNothingWrong
        && Answer.Beliefs.FirstOrDefault(one => one.Hypothesis.IsNothingWrong)
            is { ChargeShare.Low: < FullShare and > 0 and var share }
            ? share
            : null;

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
