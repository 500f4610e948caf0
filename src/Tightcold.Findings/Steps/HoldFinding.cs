using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Picture;
using Tightcold.Picture.Tight;
using Tightcold.Picture.Vacuum;
using Tightcold.Procedures.Evacuation;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The first proof: will it still cool when the time that its driver wants is over?</summary>
internal static class HoldFinding
{
    private const string Title = "Hold and pressure test";

    private static readonly ImmutableArray<Phrase> Cautions =
        [Phrase.Words("Nitrogen goes through a regulator with relief, slowly, below the vehicle's rated pressure. Never oxygen, never shop air.")];

    public static Finding Of(JobPicture picture)
    {
        var (tight, hold, nitrogen) = (picture.Tight, picture.Hold, picture.Nitrogen);
        if (hold is null && nitrogen is null) return NothingYet(picture);
        var (certainty, judgement, verdict) = Judge(picture);
        return new(Step.Hold, Title, certainty, judgement, verdict)
        {
            Why = Why(picture),
            Estimates = [.. Estimates(picture)],
            RestsOn = [.. hold?.Entries ?? [], .. nitrogen?.Entries ?? []],
            Assumptions = [.. Assumptions(picture)],
            Missing = [.. Missing(hold, nitrogen)],
            Cautions = Cautions,
            Next = Next(picture, tight),
            Table = hold is null ? null : HoldWords.Table(hold.Odds),
        };
    }

    private static Finding NothingYet(JobPicture picture)
    {
        var single = VacuumReadings.SincePumpStart(picture).Where(row => row.Isolated).ToArray();
        return new(Step.Hold, Title, Certainty.NothingYet, Judgement.Open,
            single.Length == 0 ? Phrase.Words("Not held yet.") : Phrase.Words("One reading so far: a hold needs at least two, better four, apart in time."))
        {
            RestsOn = [.. single.Select(row => row.Entry.Id)],
            Cautions = Cautions,
            Next = [new(Phrase.Words("Shut the valve to the pump and read at least four times over 30 minutes, with the temperature each time"), Phrase.Words("leak, water or tight"), 30, EntryKinds.VacuumReading)],
        };
    }

    private static (Certainty, Judgement, Phrase) Judge(JobPicture picture)
    {
        var (tight, hold, nitrogen) = (picture.Tight, picture.Hold, picture.Nitrogen);
        if (hold is { Odds.Fits: false })
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Words("None of the known explanations fits this hold: look at each reading again, or hold anew without touching a valve."));
        var sure = TightWords.Sure(tight);
        switch (tight.Outcome)
        {
            case TightOutcome.Leaks:
                var leaking = picture.Leaks.States.Where(state => state.Leaking).Select(state => state.Spot).ToArray();
                if (nitrogen is { Falls: true, AfterRepairs: true })
                    return (Certainty.Stands, Judgement.Bad, Phrase.Of($"It leaks: nitrogen fell by {Difference(-nitrogen.ChangePa)} in {Measure.Seconds(nitrogen.Seconds)} at one temperature."));
                return leaking.Length > 0
                    ? (Certainty.Weak, Judgement.Bad, Phrase.Of($"{string.Join(", ", leaking)} leaked and is not mended: a vacuum pulls some leaks shut."))
                    : (Certainty.Stands, Judgement.Bad, Phrase.Of($"It leaks: the vacuum rises as from a hole that would lose {Lost(hold!)}."));
            case TightOutcome.Proven:
                return (Certainty.Stands, Judgement.Good, Phrase.Of($"Proven tight. {sure}"));
            case TightOutcome.Likely:
                return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"Likely tight. {sure}"));
            default:
                break;
        }
        if (hold is { Odds.Wet: >= 0.7 })
            return (Certainty.Weak, Judgement.Bad, Phrase.Of($"Not dry ({Odds(hold.Odds.Wet)}): water is still boiling off inside. Pump on."));
        return hold is { OnDial: true } || hold is null
            ? (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"Not proven tight: {(hold is null ? "short pressure tests show" : "this gauge shows")} gross leaks only. {sure}"))
            : (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"Not proven tight. {sure}"));
    }

    private static Phrase Lost(HoldView hold) =>
        Phrase.Of($"{(GramsPerYear(hold.AsRefrigerant(hold.Odds.LeakLowPaM3PerS).LeastKgPerS), GramsPerYear(hold.AsRefrigerant(hold.Odds.LeakHighPaM3PerS).MostKgPerS))}");

    private static Phrase Why(JobPicture picture)
    {
        var why = Phrase.Empty;
        if (picture.Hold is { } hold)
        {
            why = Phrase.Of($"From {Vacuum(hold.Readings[0].PressurePa)} to {Vacuum(hold.Readings[^1].PressurePa)} in {Measure.Seconds(hold.SpanSeconds)}: {HoldWords.Leading(hold.Odds)}.");
            if (hold.Odds.HoseShare >= 0.2) why = why.Then(Phrase.Of($"The hole may also be in a hose or the gauge set ({Odds(hold.Odds.HoseShare)}): hold those alone."));
            var dryPa = Dryness.HeldPa(hold.PartTemperatureK);
            if (!hold.OnDial && hold.Readings[^1].PressurePa > dryPa)
                why = why.Then(Phrase.Of($"It settles above the {Vacuum(dryPa)} that counts as dry at {At(hold.PartTemperatureK)}: gas from the oil, or the last of the water."));
        }
        if (picture.Nitrogen is not { } nitrogen) return why;
        var start = Picture.Pressures.Gauges.Shown(nitrogen.StartPa, nitrogen.BarometerPa);
        return why.Then(nitrogen.Falls
            ? Phrase.Of($"Nitrogen at {start} fell by {Difference(-nitrogen.ChangePa)} in {Measure.Seconds(nitrogen.Seconds)} at one temperature.")
            : Phrase.Of($"Nitrogen at {start} for {Measure.Seconds(nitrogen.Seconds)}: no fall that this gauge can see."));
    }

    private static IEnumerable<Estimate> Estimates(JobPicture picture)
    {
        var odds = Math.Clamp(picture.Tight.Odds, 0.01, 0.99);
        yield return Estimate.Between("still-cools", "Odds that it still cools in two summers", QuantityKind.Ratio, odds, odds, odds, EstimateOrigin.Modelled);
        if (picture.Nitrogen is { } nitrogen)
            yield return Estimate.Normal("nitrogen-change", "Nitrogen, change at one temperature", QuantityKind.PressureDifference, nitrogen.ChangePa, nitrogen.SigmaPa);
        if (picture.Hold is not { } view) yield break;
        var (least, most) = view.AsRefrigerant(view.UnseenPaM3PerS);
        yield return Estimate.Between("unseen-leak", "Leak this hold could not have seen, as refrigerant", QuantityKind.LeakRate, Math.Sqrt(least * most), least, most);
        if (view.Odds.LeakSeen < 0.5) yield break;
        var low = view.AsRefrigerant(view.Odds.LeakLowPaM3PerS).LeastKgPerS;
        var middle = view.AsRefrigerant(view.Odds.LeakMedianPaM3PerS);
        yield return Estimate.Between("leak-rate", "The same hole with refrigerant at rest", QuantityKind.LeakRate, Math.Sqrt(middle.LeastKgPerS * middle.MostKgPerS), low,
            view.AsRefrigerant(view.Odds.LeakHighPaM3PerS).MostKgPerS);
    }

    private static IEnumerable<Assumption> Assumptions(JobPicture picture)
    {
        if (VolumeOf(picture.Record.Car).Assumption is { } volume) yield return volume;
        yield return new(Phrase.Of($"Proven from {Odds(TightPicture.ProvenFrom)} on, likely from {Odds(TightPicture.LikelyFrom)}"),
            Phrase.Of($"cooling suffers below {Kilograms(picture.Leaks.SufferingKg)} of this car's charge"));
        if (picture.Hold is null) yield break;
        yield return new(Phrase.Words("A vacuum opens a leak as pressure does"), Phrase.Words("lip seals and some cracks close under vacuum: only pressure from inside shows those"));
    }

    private static IEnumerable<Phrase> Missing(HoldView? hold, NitrogenTest? nitrogen)
    {
        if (hold is null) yield return Phrase.Words("a vacuum hold: nitrogen proves tight, not dry");
        else
        {
            if (!hold.Odds.TemperatureKnown) yield return Phrase.Words("the temperature at each reading: a warming car looks like a leak");
            if (hold.OnDial) yield return Phrase.Words("an absolute (micron) gauge: a dial sees only gross leaks");
            if (hold.Readings.Length < 4) yield return Phrase.Words("at least four readings: only the bend of the rise tells water from a leak");
        }
        if (nitrogen is null) yield return Phrase.Words("nitrogen and soap: it pushes outward as refrigerant does, and sees leaks that a vacuum hold cannot");
    }

    private static ImmutableArray<NextAction> Next(JobPicture picture, TightPicture tight)
    {
        var nitrogen = new NextAction(Phrase.Words("Dry nitrogen to the rated test pressure, soap on every joint"), Phrase.Words("leaks that push outward; bubbles show where"), 30, EntryKinds.PressureTest);
        if (picture.Hold is { Odds.Wet: >= 0.5 })
            return [new(Phrase.Words("Pump on with the car warm; then hold again"), Phrase.Words("whether the plateau falls: water leaves, a leak stays"), 60, EntryKinds.Pump, Doing.PullsVacuum)];
        return tight.Outcome switch
        {
            TightOutcome.Proven or TightOutcome.Likely when picture.Timeline.Now.Inside == Picture.Circuit.Inside.Vacuum =>
                [new(Phrase.Words("Weigh in the charge"), Phrase.Words("the right amount, to some grams"), 20, EntryKinds.ScaleReading, Doing.FillsIn), nitrogen],
            TightOutcome.Proven => [],
            _ when picture.Hold is null => [new(Phrase.Words("Let the nitrogen out, pull down and hold"), Phrase.Words("whether it is dry"), 75, EntryKinds.VacuumReading, Doing.PullsVacuum)],
            TightOutcome.Leaks => [nitrogen, new(Phrase.Words("Cap and check the hoses and the gauge set alone"), Phrase.Words("whether the hose leaks, not the car"), 10, EntryKinds.VacuumReading)],
            _ => [nitrogen, new(Phrase.Words("Hold longer, with an absolute gauge and temperatures"), Phrase.Words("a slower leak"), 60, EntryKinds.VacuumReading)],
        };
    }
}
