using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture;
using Tightcold.Picture.Tight;
using Tightcold.Picture.Vacuum;
using Tightcold.Procedures.Evacuation;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The first proof: will it still cool when the time that its driver wants is over?</summary>
internal static class HoldFinding
{
    private const string Title = "Hold and pressure test";

    /// <summary>Two months, s.</summary>
    private const double SoonSeconds = 60 * 86_400;

    /// <summary>A kilogram a year: more than a whole charge, kg/s.</summary>
    private const double GrossKgPerS = 1 / LeakForecast.Year;

    private static readonly ImmutableArray<Caution> Hazards =
    [
        new(
            Finding.NitrogenKey,
            Danger.Life,
            Phrase.Words("Nitrogen goes through a regulator with relief, slowly, below the vehicle's rated pressure."),
            "common practice"
        ),
    ];

    public static Finding Of(JobPicture picture)
    {
        var (tight, hold) = (picture.Tight, picture.Hold);
        if (tight.Belief.Tests.IsEmpty)
            return NothingYet(picture);
        var (certainty, judgement, verdict) = Judge(picture);
        if (picture.AFailedTestWasStruck)
            verdict = verdict.Then(Phrase.Words("A test that failed was struck from the journal."));
        return new(Step.Hold, Title, certainty, judgement, verdict)
        {
            Why = Why(picture),
            Estimates = [.. Estimates(picture)],
            RestsOn = [.. Rests(picture)],
            Assumptions = [.. Assumptions(picture)],
            Missing = [.. Missing(tight)],
            Hazards = Hazards,
            Next = Next(picture, tight),
            Table =
                hold is null || tight.Outcome is TightOutcome.Proven or TightOutcome.Likely
                    ? null
                    : HoldWords.Table(hold.Odds),
        };
    }

    private static Finding NothingYet(JobPicture picture)
    {
        var single = VacuumReadings.SincePumpStart(picture).Where(row => row.Isolated).ToArray();
        var nitrogen = picture.Timeline.OfKind(EntryKinds.PressureTest).ToArray();
        return new(
            Step.Hold,
            Title,
            single.Length + nitrogen.Length == 0 ? Certainty.NothingYet : Certainty.Weak,
            Judgement.Open,
            single.Length > 0
                    ? Phrase.Words("One reading so far: a hold needs at least two, better four, apart in time.")
                : nitrogen.Length > 0
                    ? Phrase.Words(
                        "Nitrogen read once: read it again after half an hour or more, with the temperature."
                    )
                : Phrase.Words("Not held yet.")
        )
        {
            RestsOn = [.. single.Select(row => row.Entry.Id), .. nitrogen.Select(entry => entry.Id)],
            Hazards = Hazards,
            Next =
            [
                new(
                    Phrase.Words(
                        "Shut the valve to the pump and read at least four times over 30 minutes, with the "
                            + "temperature each time"
                    ),
                    Phrase.Words("leak, water or tight"),
                    30,
                    EntryKinds.VacuumReading
                ),
            ],
        };
    }

    /// <summary>Every test of the whole circuit, and what was looked at since it was last touched.</summary>
    private static IEnumerable<Guid> Rests(JobPicture picture)
    {
        var moments = picture.Timeline.Moments;
        var touched = moments.Select(moment => moment.Entry).LastOrDefault(entry => Touches(entry.Kind));
        return moments
            .Where(moment =>
                moment.Entry.Kind switch
                {
                    EntryKinds.PressureTest => true,
                    EntryKinds.VacuumReading => moment.Entry.Fields.Text(FieldNames.PumpValve) == Chosen.Shut,
                    EntryKinds.LeakSearch or EntryKinds.LeakCheck => touched is null
                        || moment.Entry.ObservedAt > touched.ObservedAt,
                    _ => false,
                }
            )
            .Select(moment => moment.Entry.Id);
    }

    private static bool Touches(string kind) =>
        kind is EntryKinds.PartChanged or EntryKinds.SealChanged or EntryKinds.Closed;

    private static (Certainty, Judgement, Phrase) Judge(JobPicture picture)
    {
        var (tight, hold) = (picture.Tight, picture.Hold);
        var sure = TightWords.Sure(tight);
        switch (tight.Outcome)
        {
            case TightOutcome.Leaks:
                return (Certainty.Stands, Judgement.Bad, Leaks(picture));
            case TightOutcome.Proven:
                return (Certainty.Stands, Judgement.Good, Phrase.Of($"Proven tight. {sure}"));
            case TightOutcome.Likely:
                return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"Likely tight. {sure}"));
            default:
                break;
        }
        if (hold is { Odds.Fits: false })
            return (
                Certainty.Weak,
                Judgement.CannotTell,
                Phrase.Words(
                    "No known explanation fits these readings: look at each again, or hold anew without touching a "
                        + "valve."
                )
            );
        if (hold is { Odds.Wet: >= 0.7 })
            return (
                Certainty.Weak,
                Judgement.Bad,
                Phrase.Of($"Not dry ({Odds(hold.Odds.Wet)}): water is still boiling off inside. Pump on.")
            );
        return (
            Certainty.Weak,
            Judgement.CannotTell,
            Phrase.Words("Not proven tight.").Then(Quality(tight)).Then(sure)
        );
    }

    private static Phrase Leaks(JobPicture picture)
    {
        var tight = picture.Tight;
        var leaking = picture.Leaks.States.Where(state => state.Leaking).Select(state => state.Spot).ToArray();
        var failed = tight.Belief.Tests.LastOrDefault(test => test.Failed && test.SinceLastChange);
        if (failed is not null)
        {
            var nitrogen = failed.Kind == TightnessTestKind.NitrogenDecay;
            var (slow, fast) = (failed.RateKgPerS.P05, failed.RateKgPerS.P95);
            // Kilograms a year mean nothing to anybody: a large one is told by how soon the car is empty.
            if (slow > 0 && picture.Leaks.ChargeKg / slow < SoonSeconds)
            {
                var empty = (
                    Measure.Seconds(picture.Leaks.ChargeKg / fast),
                    Measure.Seconds(picture.Leaks.ChargeKg / slow)
                );
                return nitrogen
                    ? Phrase.Of($"It leaks: the nitrogen fell as from a hole that would empty it in {empty}.")
                    : Phrase.Of($"It leaks: the vacuum rose as from a hole that would empty it in {empty}.");
            }
            var rate = (GramsPerYear(slow), GramsPerYear(fast));
            return nitrogen
                ? Phrase.Of($"It leaks: the nitrogen fell as from a hole that would lose {rate}.")
                : Phrase.Of($"It leaks: the vacuum rose as from a hole that would lose {rate}.");
        }
        return leaking.Length > 0
            ? Phrase.Of($"{SpotWords.Names(leaking)} leaked and is not mended: a vacuum pulls some leaks shut.")
            : Phrase.Words("It leaks: a test failed, and nothing was mended since.");
    }

    /// <summary>What keeps the last test from saying more, in one sentence.</summary>
    private static Phrase Quality(TightPicture tight) =>
        tight.LastTest?.Quality switch
        {
            { } quality when quality.HasFlag(TestQuality.DialOnly) => Phrase.Words(
                "This gauge shows gross leaks only."
            ),
            { } quality when quality.HasFlag(TestQuality.TooShort) => Phrase.Words(
                "It was too short to see more than gross leaks."
            ),
            { } quality when quality.HasFlag(TestQuality.LowPressure) => Phrase.Words("The test pressure was too low."),
            { } quality when quality.HasFlag(TestQuality.Cooling) => Phrase.Words(
                "The parts cooled meanwhile, which hides a leak."
            ),
            _ => Phrase.Empty,
        };

    private static Phrase Why(JobPicture picture)
    {
        var why = TightWords.Doubt(picture.Tight);
        if (picture.Hold is { } hold)
        {
            why = why.Then(
                Phrase.Of(
                    $"From {Vacuum(hold.Readings[0].PressurePa)} to {Vacuum(hold.Readings[^1].PressurePa)} in "
                        + $"{Measure.Seconds(hold.SpanSeconds)}: {HoldWords.LooksLike(hold.Odds)}."
                )
            );
            var dryPa = Dryness.HeldPa(hold.PartTemperatureK);
            if (!hold.OnDial && hold.Readings[^1].PressurePa > dryPa)
                why = why.Then(
                    Phrase.Of(
                        $"It settles above the {Vacuum(dryPa)} that counts as dry at {At(hold.PartTemperatureK)}: gas "
                            + $"from the oil, or the last of the water."
                    )
                );
        }
        if (
            picture.Tight.Belief.Tests.Where(test => test.SinceLastChange).ToArray() is { Length: > 0 } tests
            && tests.All(test => test.FloorKgPerS >= GrossKgPerS)
        )
            why = why.Then(
                Phrase.Words(
                    tests.Length == 1
                        ? "This test shows gross leaks only: what is slower, the looks at the joints show."
                        : "These tests show gross leaks only: what is slower, the looks at the joints show."
                )
            );
        if (picture.Tight.Belief.HosesLeak >= 0.2)
            why = why.Then(
                Phrase.Of(
                    $"The hole may also be in a hose or the gauge set ({Odds(picture.Tight.Belief.HosesLeak)}): hold "
                        + $"those alone."
                )
            );
        return why;
    }

    private static IEnumerable<Estimate> Estimates(JobPicture picture)
    {
        var tight = picture.Tight;
        var odds = Math.Clamp(tight.Odds, 0.01, 0.99);
        yield return Estimate.Between(
            "still-cools",
            Phrase.Of($"Odds that it still cools {TightWords.When(tight)}"),
            QuantityKind.Ratio,
            odds,
            odds,
            odds,
            EstimateOrigin.Modelled
        );
        if (picture.Pump.Observed.Length > 0)
        {
            var dry = Math.Clamp(tight.Dry, 0.01, 0.99);
            yield return Estimate.Between(
                "dry",
                "Odds that it is dry",
                QuantityKind.Ratio,
                dry,
                dry,
                dry,
                EstimateOrigin.Modelled
            );
        }
        foreach (var test in tight.Belief.Tests.Where(test => test.SinceLastChange).TakeLast(2))
        {
            var nitrogen = test.Kind == TightnessTestKind.NitrogenDecay;
            var key = nitrogen ? "nitrogen" : "hold";
            // “Not slower than 88 kg a year” helps nobody: the sentence above says that it shows gross leaks only.
            if (test.FloorKgPerS < GrossKgPerS)
                yield return Estimate.Between(
                    $"{key}-floor",
                    nitrogen ? "Leak this nitrogen test could not have seen" : "Leak this hold could not have seen",
                    QuantityKind.LeakRate,
                    test.FloorKgPerS,
                    Math.Min(test.FloorKgPerS, test.FloorKgPerS * test.FloorKgPerS / test.FloorHighKgPerS),
                    test.FloorHighKgPerS,
                    EstimateOrigin.Modelled
                );
            if (test.ShowsLeak >= 0.5)
                yield return Estimate.Between(
                    $"{key}-rate",
                    nitrogen ? "Leak by this nitrogen test" : "Leak by this hold",
                    QuantityKind.LeakRate,
                    test.RateKgPerS.P50,
                    test.RateKgPerS.P05,
                    test.RateKgPerS.P95,
                    EstimateOrigin.Modelled
                );
        }
    }

    private static IEnumerable<Assumption> Assumptions(JobPicture picture)
    {
        if (VolumeOf(picture.Record.Car).Assumption is { } volume)
            yield return volume;
        yield return new(
            Phrase.Of($"Proven from {Odds(TightPicture.ProvenFrom)} on, likely from {Odds(TightPicture.LikelyFrom)}"),
            Phrase.Of($"cooling suffers below {Kilograms(picture.Leaks.SufferingKg)} of this car's charge")
        );
    }

    private static IEnumerable<Phrase> Missing(TightPicture tight)
    {
        var tests = tight.Belief.Tests.Where(test => test.SinceLastChange).ToArray();
        var holds = tests.Where(test => test.Kind == TightnessTestKind.VacuumHold).ToArray();
        if (holds.Length == 0)
            yield return Phrase.Words("a vacuum hold: nitrogen proves tight, not dry");
        if (tests.Any(test => test.Quality.HasFlag(TestQuality.NoTemperature)))
            yield return Phrase.Words("the temperature at each reading: a warming car looks like a leak");
        if (holds.Length > 0 && holds.All(test => test.Quality.HasFlag(TestQuality.DialOnly)))
            yield return Phrase.Words("an absolute (micron) gauge: a dial sees only gross leaks");
        if (
            !tests.Any(test =>
                test.Kind == TightnessTestKind.NitrogenDecay
                && (test.Quality & (TestQuality.TooShort | TestQuality.LowPressure)) == 0
            )
        )
            yield return Phrase.Words(
                "nitrogen at the test pressure for half an hour or more, and soap: it pushes outward as refrigerant "
                    + "does, and sees leaks that a vacuum hold cannot"
            );
    }

    private static ImmutableArray<NextAction> Next(JobPicture picture, TightPicture tight)
    {
        if (tight.Outcome != TightOutcome.Leaks && picture.Hold is { Odds.Wet: >= 0.5 })
            return
            [
                new(
                    Phrase.Words("Pump on with the car warm; then hold again"),
                    Phrase.Words("whether the plateau falls: water leaves, a leak stays"),
                    60,
                    EntryKinds.Pump,
                    Doing.PullsVacuum
                ),
            ];
        return tight.Outcome switch
        {
            TightOutcome.Proven
            or TightOutcome.Likely when picture.Timeline.Now.Inside == Picture.Circuit.Inside.Vacuum =>
            [
                new(
                    Phrase.Words("Weigh in the charge"),
                    Phrase.Words("the right amount, to some grams"),
                    20,
                    EntryKinds.ScaleReading,
                    Doing.FillsIn
                ),
                .. tight.Belief.Next.Take(1).Select(proposal => TightWords.Action(picture, proposal)),
            ],
            TightOutcome.Proven => [],
            TightOutcome.Leaks => TightWords.FindIt(picture),
            _ => TightWords.Further(picture),
        };
    }
}
