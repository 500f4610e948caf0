using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Procedures.Evacuation;
using Tightcold.Quantities;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The first proof: does it hold, and what leak could this hold not have seen?</summary>
internal static class HoldFinding
{
    private const string Title = "Proven tight";
    private const double Sure = 0.9;

    /// <summary>Odds of tight and dry that count as proven; a hold alone never gets much higher, because gas from the
    /// oil looks like a small leak.</summary>
    private const double Tight = 0.75;

    /// <summary>A hold in falling heat proves nothing once the cooling could hide this many times the floor.</summary>
    private const double HiddenFloors = 1.5;

    /// <param name="held">The hold; null when there is none yet.</param>
    public static Finding Of(JobRecord record, HoldView? held)
    {
        ImmutableArray<Phrase> cautions =
        [
            Phrase.Words("A nitrogen test goes through a regulator with relief, slowly, below the vehicle's rated pressure. Never oxygen, never shop air."),
        ];
        var nitrogen = NitrogenTest.Of(record);
        if (held is not { } view)
        {
            if (nitrogen is not null) return nitrogen.AlonePhrase(Title, cautions);
            var single = VacuumReadings.SincePumpStart(record).Where(row => row.Isolated).ToArray();
            return new(Step.Hold, Title, Certainty.NothingYet, Judgement.Open, single.Length == 0 ? Phrase.Words("Not held yet.") : Phrase.Words("One reading so far: a hold needs at least two, better four, apart in time."))
            {
                RestsOn = [.. single.Select(row => row.Entry.Id)],
                Cautions = cautions,
                Next = [new(Phrase.Words("Shut the valve to the pump and read at least four times over 30 minutes, with the temperature each time"), Phrase.Words("leak, water or tight"), 30, EntryKinds.VacuumReading)],
            };
        }
        var (certainty, judgement, verdict, why) = Judge(record, view);
        var missing = Missing(view, nitrogen);
        return new(Step.Hold, Title, missing.Length <= 1 ? certainty : Certainty.Weak, judgement, verdict)
        {
            Why = nitrogen is null ? why : why.Then(nitrogen.Sentence),
            Estimates = [.. Estimates(view), .. nitrogen?.Estimates ?? []],
            RestsOn = [.. view.Entries, .. nitrogen?.Entries ?? []],
            Assumptions = Assumptions(record, view),
            Missing = missing,
            Cautions = cautions,
            Next = Next(judgement, view),
            Table = HoldWords.Table(view.Odds),
        };
    }

    private static ImmutableArray<Estimate> Estimates(HoldView view)
    {
        var odds = view.Odds;
        var (least, most) = view.AsRefrigerant(view.UnseenPaM3PerS);
        var largest = view.AsRefrigerant(odds.LeakHighPaM3PerS);
        var estimates = ImmutableArray.CreateBuilder<Estimate>();
        estimates.Add(Estimate.Between("unseen-leak", "Leak this hold could not have seen, as refrigerant", QuantityKind.LeakRate, Math.Sqrt(least * most), least, most));
        estimates.Add(Estimate.Between("hold-floor", "Smallest air inflow it shows in a still system", QuantityKind.GasThroughput, odds.FloorPaM3PerS, odds.FloorPaM3PerS * 0.8, odds.FloorPaM3PerS * 1.25));
        if (odds.AnyLeak > 0.02)
        {
            estimates.Add(Estimate.Between("leak-inflow", "Air drawn in, if it leaks", QuantityKind.GasThroughput, odds.LeakMedianPaM3PerS, odds.LeakLowPaM3PerS, odds.LeakHighPaM3PerS));
            if (odds.LeakSeen >= 0.5)
            {
                var low = view.AsRefrigerant(odds.LeakLowPaM3PerS).LeastKgPerS;
                var middle = view.AsRefrigerant(odds.LeakMedianPaM3PerS);
                estimates.Add(Estimate.Between("leak-rate", "The same hole with refrigerant at rest", QuantityKind.LeakRate, Math.Sqrt(middle.LeastKgPerS * middle.MostKgPerS), low, largest.MostKgPerS));
            }
        }
        return estimates.ToImmutable();
    }

    private static ImmutableArray<Assumption> Assumptions(JobRecord record, HoldView view)
    {
        var assumptions = ImmutableArray.CreateBuilder<Assumption>();
        if (VolumeOf(record.Car).Assumption is { } assumed) assumptions.Add(assumed);
        assumptions.Add(new(Phrase.Of($"The same hole would work at {Absolute(view.SystemPa)} with refrigerant as it does at vacuum with air"),
            Phrase.Words("between a choked opening and a fine channel the answer differs about twentyfold: that is the width of the range")));
        assumptions.Add(new(Phrase.Words("A vacuum opens a leak as pressure does"),
            Phrase.Words("lip seals and some cracks close under vacuum: only pressure from inside shows those")));
        return assumptions.ToImmutable();
    }

    private static ImmutableArray<Phrase> Missing(HoldView view, NitrogenTest? nitrogen)
    {
        var missing = ImmutableArray.CreateBuilder<Phrase>();
        if (!view.Odds.TemperatureKnown) missing.Add(Phrase.Words("the temperature at each reading: a warming car looks like a leak"));
        if (view.OnDial) missing.Add(Phrase.Words("an absolute (micron) gauge: a dial sees only gross leaks"));
        if (view.Readings.Length < 4) missing.Add(Phrase.Words("at least four readings: only the bend of the rise tells water from a leak"));
        if (nitrogen is null) missing.Add(Phrase.Words("a nitrogen pressure test with soap: it pushes outward as refrigerant does, and sees leaks that a vacuum hold cannot"));
        return missing.ToImmutable();
    }

    private static (Certainty, Judgement, Phrase, Phrase) Judge(JobRecord record, HoldView view)
    {
        var odds = view.Odds;
        var endPa = view.Readings[^1].PressurePa;
        var minutes = Measure.Seconds(view.SpanSeconds);
        var why = Phrase.Of($"From {Vacuum(view.Readings[0].PressurePa)} to {Vacuum(endPa)} in {minutes}: {HoldWords.Leading(odds)}.");
        if (!odds.Fits)
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Words("None of the known explanations fits these readings: look at each again, or hold anew without touching a valve."), why);
        var leaks = LeakFinding.States(record);
        if (odds.LeakSeen >= Sure)
        {
            var rate = (GramsPerYear(view.AsRefrigerant(odds.LeakLowPaM3PerS).LeastKgPerS), GramsPerYear(view.AsRefrigerant(odds.LeakHighPaM3PerS).MostKgPerS));
            var where = odds.HoseShare >= 0.2 ? Phrase.Of($"The hole may also be in a hose or the gauge set ({Odds(odds.HoseShare)}): hold those alone.") : Phrase.Empty;
            return (Certainty.Stands, Judgement.Bad, Phrase.Of($"It leaks ({Odds(odds.LeakSeen)}): as from a hole that would lose {rate} of refrigerant."), why.Then(where));
        }
        if (leaks.Any(state => state.Leaking))
            return (Certainty.Weak, Judgement.Bad, Phrase.Of($"{string.Join(", ", leaks.Where(state => state.Leaking).Select(state => state.Spot))} leaked and is not mended: whatever this hold shows, a vacuum pulls some leaks shut."), why);
        if (odds.Wet >= 0.7)
            return (Certainty.Weak, Judgement.Bad, Phrase.Of($"Not dry ({Odds(odds.Wet)}): water is still boiling off inside (it could reach {Vacuum(odds.WaterPa)} at {At(view.PartTemperatureK)}). Pump on."), why);
        var floor = view.AsRefrigerant(view.UnseenPaM3PerS);
        var range = (GramsPerYear(floor.LeastKgPerS), GramsPerYear(floor.MostKgPerS));
        if (view.OnDial)
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"It held {minutes} on a dial gauge, which shows gross leaks only: anything below {range} would not have been seen."), why);
        var dryPa = Dryness.HeldPa(view.PartTemperatureK);
        if (1 - odds.LeakSeen - odds.Wet < Tight)
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"Not proven: {Odds(odds.LeakSeen)} for a leak that shows, {Odds(odds.Wet)} for water, {Odds(1 - odds.LeakSeen - odds.Wet)} for tight and dry. Hold longer, and at another temperature."), why);
        if (view.HiddenByCoolingPaM3PerS > HiddenFloors * odds.FloorPaM3PerS)
        {
            var hidden = view.AsRefrigerant(view.HiddenByCoolingPaM3PerS);
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"It held while the parts cooled by {Kelvins(view.CooledK)}: that could have hidden a leak of {(GramsPerYear(hidden.LeastKgPerS), GramsPerYear(hidden.MostKgPerS))}. Hold again at a steady or rising temperature."), why);
        }
        if (endPa > dryPa)
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"It settles at {Vacuum(endPa)}, above the {Vacuum(dryPa)} that counts as dry at {At(view.PartTemperatureK)}: gas from the oil, or the last of the water. Pump on and hold again."), why);
        var open = leaks.Count(state => !state.Clear);
        var verdict = Phrase.Of($"Tight and dry ({Odds(1 - odds.LeakSeen - odds.Wet)}): held {minutes} and ended at {Vacuum(endPa)}. A leak of more than {range} as refrigerant would have shown; a slower one only soap, detector or time can show.");
        return open == 0
            ? (Certainty.Stands, Judgement.Good, verdict, why)
            : (Certainty.Weak, Judgement.Good, verdict, why.Then(Phrase.Of($"{LeakFinding.Count(open, "spot is", "spots are")} not yet clear in the leak search.")));
    }

    /// <summary>What to hold for, to see an ordinary slow leak: 40 g a year, the limit for type approval of
    /// one-evaporator systems (directive 2006/40/EC).</summary>
    private static Phrase LongEnough(HoldView view)
    {
        var slow = LeakRate.FromGramsPerYear(40);
        var plan = view.PlanFor(slow.KilogramsPerSecond);
        return plan.Never
            ? Phrase.Of($"a leak of {slow} no vacuum hold on this car and gauge will show: it would take {Measure.Seconds(plan.LeastSeconds)} at the least, and oil and weather move more than that; detector at pressure, or soap under nitrogen, does")
            : Phrase.Of($"a leak of {slow} would need a hold of {(Measure.Seconds(plan.LeastSeconds), Measure.Seconds(plan.MostSeconds))}");
    }

    private static ImmutableArray<NextAction> Next(Judgement judgement, HoldView view)
    {
        var nitrogen = new NextAction(Phrase.Words("Dry nitrogen to the rated test pressure, soap on every joint"), Phrase.Words("leaks that push outward; bubbles show where"), 30, EntryKinds.PressureTest);
        return judgement switch
        {
            Judgement.Good => [new(Phrase.Words("Weigh in the charge"), Phrase.Words("the right amount, to some grams"), 20, EntryKinds.ScaleReading), nitrogen],
            Judgement.Bad when view.Odds.Wet >= 0.5 => [new(Phrase.Words("Pump on with the car warm; then hold again"), Phrase.Words("whether the plateau falls: water leaves, a leak stays"), 60, EntryKinds.Pump)],
            Judgement.Bad => [nitrogen, new(Phrase.Words("Cap and check the hoses and the gauge set alone"), Phrase.Words("whether the hose leaks, not the car"), 10, EntryKinds.VacuumReading)],
            _ => [nitrogen, new(Phrase.Words("Hold longer, with an absolute gauge and temperatures; then warm the parts by 10 K"), Phrase.Of($"warmth doubles what water does and leaves a leak as it is; {LongEnough(view)}"), 60, EntryKinds.VacuumReading)],
        };
    }
}
