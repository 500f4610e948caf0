using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Findings.Diagnosing;
using Tightcold.Jobs.Entries;
using Tightcold.Picture;
using Tightcold.Picture.Charge;
using Tightcold.Picture.Machine;
using Tightcold.Picture.Standing;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>What is wrong: faults with odds, what speaks for and against each, and the test that tells most.</summary>
internal static class DiagnosisFinding
{
    private const string Title = "What is wrong";
    private const double Sure = JobPictureLines.Told;
    private const double Likely = JobPictureLines.Likely;
    private const double WorthARow = 0.03;
    private const double Misread = 0.5;
    private const int Rows = 5;

    public static Finding Of(JobPicture picture)
    {
        if (picture.Machine is { } weighed)
            return Of(picture, weighed);
        if (picture.Unweighed is { } evidence)
        {
            return new(
                Step.WhatIsWrong,
                Title,
                Certainty.NothingYet,
                Judgement.Open,
                Phrase.Words("Not weighed yet: that takes a second or two.")
            )
            {
                RestsOn = evidence.RestsOn,
                Missing = evidence.Missing,
            };
        }
        var otherwise = picture.Evidence?.Otherwise
            ?? (picture.Timeline.Now.HoldsRefrigerant ? Identification.Otherwise(picture.Record, []) : null);
        return otherwise is null ? NothingYet(picture) : NotTheLabels(picture.Record.Car.Refrigerant, otherwise);
    }

    private static Finding NothingYet(JobPicture picture) =>
        new(
            Step.WhatIsWrong,
            Title,
            Certainty.NothingYet,
            Judgement.Open,
            picture.Timeline.Now.HoldsRefrigerant
                ? Phrase.Words("No readings to weigh yet.")
                : Phrase.Words("Nothing to weigh: no refrigerant stands inside.")
        )
        {
            Missing = [Phrase.Words("a running reading with both gauges and the outside air's temperature")],
            Next =
            [
                new(
                    Phrase.Words("Run it cold on full blower for ten minutes, then read both gauges, vent and lines"),
                    Phrase.Words("which faults fit, with odds"),
                    12,
                    EntryKinds.RunningReading,
                    Doing.RunsCompressor
                ),
            ],
        };

    /// <summary>Every fault is weighed by the label's refrigerant: with another inside there is nothing to
    /// weigh.</summary>
    private static Finding NotTheLabels(string refrigerant, Identification otherwise) =>
        new(
            Step.WhatIsWrong,
            Title,
            Certainty.Stands,
            Judgement.Bad,
            Phrase.Of(
                $"Not {Phrase.Verbatim(refrigerant)} inside: the identifier says “{otherwise.Says}”. No fault is "
                    + $"weighed by pressures of a refrigerant that is not there."
            )
        )
        {
            Why = Phrase.Words(
                "Gauges, lines and vent can be read again once it is recovered, evacuated and filled by weight with "
                    + "what the label says."
            ),
            RestsOn = [otherwise.Entry.Id],
            Hazards = [IdentificationWords.Caution],
            Next = [IdentificationWords.Recover],
        };

    private static Finding Of(JobPicture picture, JobDiagnosis diagnosis)
    {
        var (evidence, answer) = (diagnosis.Evidence, diagnosis.Answer);
        var (certainty, judgement, verdict) = Judge(answer, evidence);
        // Readings of the car as it was before the circuit was worked on speak of that car.
        var past =
            evidence.Epoch < picture.Timeline.Now.Epoch
            && picture.Timeline.Moments.Any(moment =>
                moment.After.Epoch > evidence.Epoch && !moment.After.HoldsRefrigerant
            );
        if (past)
            verdict = Phrase.Of($"Before the work: {verdict}");
        return new(Step.WhatIsWrong, Title, certainty, judgement, verdict)
        {
            Why = Why(picture, diagnosis),
            Estimates = Estimates(picture, answer),
            RestsOn = evidence.RestsOn,
            Assumptions =
            [
                SignTold.Story(evidence.Told, answer),
                .. evidence.Assumptions,
                .. evidence.Seen.ToldTwice is { } twice ? [ToldTwice(twice)] : Array.Empty<Assumption>(),
                .. evidence.Filling is { } filling ? [HistoryWords.Assumption(filling)] : Array.Empty<Assumption>(),
                new(
                    Phrase.Words(
                        "Parts as cars with this label have them, spread wide; faults by how common the trade takes "
                            + "them to be; modelled, not measured on this car"
                    ),
                    Phrase.Words(
                        "a different car or a rare fault shifts the odds; healthy readings of this car would narrow "
                            + "them"
                    )
                ),
            ],
            Missing = evidence.Missing,
            Hazards =
            [
                .. IdentificationWords.WrongRefrigerant(evidence.MayBe),
                .. answer
                    .Beliefs.Where(belief => belief.Odds >= 0.2)
                    .SelectMany(belief => FaultWords.Cautions(belief.Hypothesis))
                    .DistinctBy(hazard => hazard.Key)
                    .Take(3),
            ],
            Next = past ? [] : Next(diagnosis, judgement),
            Table = Table(answer, evidence),
        };
    }

    private static Assumption ToldTwice(Sign sign) =>
        new(
            Phrase.Of($"“{SeenSigns.Says(sign)}” and the story are one witness"),
            Phrase.Words("it is counted once, with the story")
        );

    private static (Certainty, Judgement, Phrase) Judge(FaultOdds answer, JobEvidence evidence)
    {
        var faults = answer.ByFault();
        var (leading, odds, _) = faults[0];
        var name = FaultWords.Name(leading);
        if (!answer.Contradictions.IsEmpty)
            return (
                Certainty.Weak,
                Judgement.CannotTell,
                Phrase.Of(
                    $"Cannot tell: {ReadingWords.Of(answer.Contradictions[0], evidence.Evidence)}. It is left out; "
                        + $"read again."
                )
            );
        if (leading.IsNoneOfThese || answer.Fit < FaultOdds.FitsAbove)
            return (
                Certainty.Weak,
                Judgement.CannotTell,
                Phrase.Words(
                    "None of the faults weighed here explains these readings together: something rarer is wrong, the "
                        + "refrigerant is not the label's, or a reading is off."
                )
            );
        var also = Phrase.Of($"{FaultWords.Name(faults[1].Alone)} {Odds(faults[1].Odds)}");
        if (answer.EvidenceUncertain && odds >= Likely)
            return (
                Certainty.Weak,
                Judgement.CannotTell,
                Phrase.Of(
                    $"Probably {name}, about {Odds(odds)}, but these odds are rough: few modelled cars look like this "
                        + $"one."
                )
            );
        if (!evidence.MayBe.IsEmpty && odds >= Likely)
            return (
                Certainty.Weak,
                Judgement.CannotTell,
                Phrase.Of(
                    $"Probably {name}, {Odds(odds)}, but only if it holds what the label says: it stood where "
                        + $"{Phrase.Verbatim(evidence.MayBe[0].Fluid.DisplayName)} with liquid would."
                )
            );
        // A history is hearsay about a filling: what the readings alone do not carry is not told surely.
        if (odds >= Sure && answer.WithoutHistory(leading) is < Sure and var alone)
            return (
                Certainty.Weak,
                Judgement.CannotTell,
                Phrase.Of($"Probably {name}: {Odds(odds)} with the car's history, {Odds(alone)} by the readings alone.")
            );
        return odds switch
        {
            >= Sure when leading.IsNothingWrong => (
                Certainty.Stands,
                Judgement.Good,
                Phrase.Of($"Nothing wrong found: {Odds(odds)} that no fault worth mending shows.")
            ),
            >= Sure => (Certainty.Stands, Judgement.Bad, Phrase.Of($"Most likely {name}: {Odds(odds)}.")),
            >= Likely => (
                Certainty.Weak,
                Judgement.CannotTell,
                Phrase.Of($"Can't tell for sure yet. Probably {name}, {Odds(odds)}; then {also}.")
            ),
            _ => (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"Can't tell yet: {name} {Odds(odds)}, {also}.")),
        };
    }

    private static Phrase Why(JobPicture picture, JobDiagnosis diagnosis)
    {
        var (answer, evidence) = (diagnosis.Answer, diagnosis.Evidence);
        var why = answer.DoesNotFit is { } least ? ReadingWords.DoesNotFit(least, evidence.Evidence) : Phrase.Empty;
        foreach (
            var reading in answer.Readings.Where(reading =>
                reading.MisreadOdds > Misread && reading != answer.DoesNotFit
            )
        )
        {
            var value = ReadingWords.Value(
                reading.Channel,
                reading.Observed,
                evidence.Evidence.Points[reading.Point].BarometricPa
            );
            why = why.Then(
                Phrase.Of($"The {ReadingWords.Name(reading.Channel)} of {value} fits nothing else: read it again.")
            );
        }

        foreach (var one in answer.Contradictions.Skip(1))
            why = why.Then(Phrase.Of($"{ReadingWords.Of(one, evidence.Evidence)}."));
        var lead = answer.Leading;
        var supports = lead
            .Reasons.Where(reason =>
                reason.Weight > 0
                && !reason.IsHistory
                && (
                    reason.Channel is null
                    || (reason.Observed >= reason.Expected.Low && reason.Observed <= reason.Expected.High)
                )
            )
            .Take(2)
            .Select(reason =>
                lead.Hypothesis.Faults.IsEmpty
                    ? ReadingWords.Sound(reason, evidence.Evidence)
                    : ReadingWords.Reason(reason, evidence.Evidence)
            )
            .ToArray();
        if (supports.Length > 0)
            why = why.Then(
                lead.Hypothesis.Faults.IsEmpty
                    ? Phrase.Of($"As on a sound car: {Joined(supports)}.")
                    : Phrase.Of($"For {FaultWords.Name(lead.Hypothesis)}: {Joined(supports)}.")
            );
        var seen = lead
            .SignReasons.Take(3)
            .Select(reason => SignTold.Speaks(reason, FaultWords.Name(lead.Hypothesis)))
            .ToArray();
        if (seen.Length > 0)
            why = why.Then(Phrase.Of($"Seen: {Joined(seen)}."));
        why = why.Then(HistorySpeaks(answer, evidence)).Then(Hides(diagnosis));
        if (
            evidence.Epoch == picture.Timeline.Now.Epoch
            && picture.Charge is { From: ChargeFrom.Model, LowKg: { } low, HighKg: { } high }
            && (high - low) / answer.LabelKg > 0.3
            && diagnosis.HiddenShortage is null
        )
            why = why.Then(
                Phrase.Of(
                    $"The pressures allow any charge from {Share(low / answer.LabelKg)} to "
                        + $"{Share(high / answer.LabelKg)} of the label: only weighing tells."
                )
            );
        return why;
    }

    /// <summary>What a car that looks sound may still have.</summary>
    private static Phrase Hides(JobDiagnosis diagnosis)
    {
        var names = Phrase.Join(", ", diagnosis.WouldHide.Select(FaultWords.Name));
        return (names, diagnosis.HiddenShortage) switch
        {
            ({ IsEmpty: false }, { } share) => Phrase.Of(
                $"This would still hide: {names}, and a charge from {Share(share)} of the label on: only a scale tells."
            ),
            ({ IsEmpty: false }, _) => Phrase.Of($"This would still hide: {names}."),
            (_, { } share) => Phrase.Of(
                $"This would still hide a charge from {Share(share)} of the label on: only a scale tells."
            ),
            _ => Phrase.Empty,
        };
    }

    /// <summary>What the last filling lets expect, and which way that moves the leading explanation.</summary>
    private static Phrase HistorySpeaks(FaultOdds answer, JobEvidence evidence)
    {
        if (evidence.Evidence.History is not { } history || answer.ChargeShareByHistory is not { } expected)
            return Phrase.Empty;
        var lead = answer.Leading;
        var (fault, with, _) = answer.ByFault()[0];
        var (name, told) = (FaultWords.Name(lead.Hypothesis), HistoryWords.Speaks(history, expected));
        var way = lead.Reasons.FirstOrDefault(reason => reason.IsHistory)?.Weight switch
        {
            > 0 => Phrase.Of($"The history speaks for {name}: {told}."),
            < 0 => Phrase.Of($"The history speaks against {name}: {told}."),
            _ => Phrase.Of($"The history neither speaks for nor against {name}: {told}."),
        };
        return way.Then(
            Phrase.Of(
                $"By the readings alone {FaultWords.Name(fault)} would have {Odds(answer.WithoutHistory(fault))}, with "
                    + $"the history {Odds(with)}."
            )
        );
    }

    private static ImmutableArray<Estimate> Estimates(JobPicture picture, FaultOdds answer)
    {
        var list = new List<Estimate>();
        // The charge that stands there now, from whatever knows it best: the same figure as everywhere.
        if (
            picture.Charge is { Kg: { } median, LowKg: { } low, HighKg: { } high }
            && picture.Evidence?.Epoch == picture.Timeline.Now.Epoch
        )
            list.Add(
                Estimate.Between(
                    "charge",
                    "Charge in the system",
                    QuantityKind.Mass,
                    median,
                    low,
                    high,
                    ChargeWords.Origin(picture.Charge.From)
                )
            );
        foreach (var (alone, exact, _) in answer.ByFault().Where(line => line.Odds >= WorthARow).Take(3))
        {
            var odds = Math.Clamp(exact, 0.01, 0.99);
            list.Add(
                Estimate.Between(
                    "odds-" + alone.Key,
                    Phrase.Of($"Odds: {FaultWords.Name(alone)}"),
                    QuantityKind.Ratio,
                    odds,
                    odds,
                    odds,
                    EstimateOrigin.Modelled
                )
            );
        }
        return [.. list];
    }

    /// <summary>One line a fault, with the odds of the verdict: a fault and its companions are one line.</summary>
    private static FindingTable Table(FaultOdds answer, JobEvidence evidence)
    {
        var rows = new List<ImmutableArray<Phrase>>();
        foreach (var (alone, odds, _) in answer.ByFault().Where(line => line.Odds >= WorthARow).Take(Rows))
        {
            // The likeliest explanation that has it tells how bad it would be.
            var belief = answer
                .Beliefs.Where(one =>
                    alone.Faults.IsEmpty ? one.Hypothesis.Key == alone.Key : one.Hypothesis.Has(alone.Faults[0])
                )
                .MaxBy(one => one.Odds)!;
            var bad = Joined([
                .. belief
                    .Severities.Select((interval, i) => belief.Hypothesis.Faults[i].HowBad(interval.Low, interval.High))
                    .Where(phrase => !phrase.IsEmpty),
            ]);
            rows.Add([
                FaultWords.Name(alone),
                Phrase.Of($"{Odds(odds)}"),
                bad,
                Spoken(belief, evidence, 1),
                Spoken(belief, evidence, -1),
            ]);
        }

        return new(
            "Faults by their odds",
            ["What", "Odds", "How bad, if so", "Speaks for it", "Speaks against it"],
            [.. rows]
        );
    }

    private static Phrase Spoken(Belief belief, JobEvidence evidence, int sign)
    {
        // A reading speaks for a fault only where the fault would put it.
        var speaking = belief
            .Reasons.Where(reason =>
                reason.Weight * sign > 0
                && (
                    sign < 0
                    || reason.Channel is null
                    || (reason.Observed >= reason.Expected.Low && reason.Observed <= reason.Expected.High)
                )
            )
            .ToArray();
        // Two readings, and the history whenever it speaks.
        var reasons = speaking
            .Where(reason => !reason.IsHistory)
            .Take(2)
            .Concat(speaking.Where(reason => reason.IsHistory))
            .Select(reason => ReadingWords.Brief(reason, evidence.Evidence))
            .Concat(belief.SignReasons.Where(reason => reason.Weight * sign > 0).Take(2).Select(SignTold.Brief))
            .ToArray();
        return reasons.Length == 0 ? Phrase.Words("–") : Joined(reasons);
    }

    private static ImmutableArray<NextAction> Next(JobDiagnosis diagnosis, Judgement judgement)
    {
        var barometer = diagnosis.Evidence.Evidence.Points is [.., var last] ? last.BarometricPa : 101_325;
        var tests = diagnosis.Tests.Select(test => TestWords.Action(test, barometer));
        if (!diagnosis.Answer.Contradictions.IsEmpty)
            return
            [
                new(
                    Phrase.Words(
                        "Read again what cannot be: gauges vented to zero, hoses and clamps in their places, units "
                            + "checked"
                    ),
                    Phrase.Words("whether the odd reading stands"),
                    10,
                    EntryKinds.RunningReading,
                    Doing.RunsCompressor
                ),
                .. tests.Take(2),
            ];
        if (
            !diagnosis.Evidence.MayBe.IsEmpty
            || diagnosis.Answer.Leading.Hypothesis.IsNoneOfThese
            || diagnosis.Answer.Fit < FaultOdds.FitsAbove
        )
            return [IdentificationWords.Identify, .. tests.Take(2)];
        return judgement == Judgement.CannotTell
            ? [.. tests.Take(3)]
            :
            [
                FaultWords.Mend(diagnosis.Answer.Leading.Hypothesis, diagnosis.Evidence.Evidence.Signs),
                .. tests.Take(2),
            ];
    }

    private static Phrase Joined(Phrase[] phrases) => Phrase.Join("; ", phrases);
}
