using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Procedures.Vacuum;
using Tightcold.Properties;
using Tightcold.Quantities;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The first proof: does it hold, and what leak could this hold not have seen?</summary>
internal static class HoldFinding
{
    private const string Title = "Proven tight";
    private const double ReferenceSystemK = 298.15;

    /// <summary>1000 micron (133 Pa): a hold that ends below it, flat, counts as tight and dry. Source: the trade's
    /// deep-vacuum practice (holds at 500 to 1000 micron: tight and dry; levels at 1000 to 2000: tight but wet).</summary>
    private const double TightAndDryPa = 133.3;

    public static Finding Of(JobRecord record)
    {
        ImmutableArray<Phrase> cautions =
        [
            Phrase.Words("A nitrogen test goes through a regulator with relief, slowly, below the vehicle's rated pressure. Never oxygen, never shop air."),
        ];
        var all = VacuumReadings.SincePumpStart(record);
        var lastOpen = Array.FindLastIndex(all, row => !row.Isolated);
        var rows = all.Skip(lastOpen + 1).Where(row => row.Isolated).ToArray();
        var nitrogen = NitrogenTest.Of(record);
        if (rows.Length < 2 || !(rows[^1].Reading.SecondsSinceStart > rows[0].Reading.SecondsSinceStart))
        {
            if (nitrogen is not null) return nitrogen.AlonePhrase(Title, cautions);
            return new(Step.Hold, Title, Certainty.NothingYet, Judgement.Open, rows.Length == 0 ? Phrase.Words("Not held yet.") : Phrase.Words("One reading so far: a hold needs at least two, better four, apart in time."))
            {
                RestsOn = [.. rows.Select(row => row.Entry.Id)],
                Cautions = cautions,
                Next = [new(Phrase.Words("Shut the valve to the pump and read at least four times over 30 minutes, with the temperature each time"), Phrase.Words("leak, water or tight"), 30, EntryKinds.VacuumReading)],
            };
        }
        var readings = rows.Select(row => row.Reading).ToArray();
        var rise = RiseTest.Of(readings);
        var volume = VolumeOf(record.Car);
        var onDial = rows.Any(row => row.OnDial);
        var partK = readings.Min(reading => reading.TemperatureK) ?? record.WeatherAt(rows[0].Entry.ObservedAt)?.Fields.Si("ambient-temperature") ?? ReferenceSystemK;
        var limits = Limits(record, rise, volume.M3, partK);
        var estimates = new List<Estimate>
        {
            Estimate.Normal("rise", "Rise, at one temperature", QuantityKind.PressureRise, rise.SlopePaPerS, rise.SlopeSigmaPaPerS, EstimateOrigin.Computed),
            Estimate.Between("unseen-leak", "Leak this hold could not have seen, as refrigerant", QuantityKind.LeakRate, Math.Sqrt(limits.LeastKgPerS * limits.MostKgPerS), limits.LeastKgPerS, limits.MostKgPerS),
        };
        var (certainty, judgement, verdict, why) = Judge(record, readings, rise, limits, onDial, partK);
        var assumptions = new List<Assumption>();
        if (volume.Assumption is { } assumed) assumptions.Add(assumed);
        assumptions.Add(new(Phrase.Of($"The same hole would work at {Absolute(limits.SystemPa)} with refrigerant as it does at vacuum with air"),
            Phrase.Words("between a choked opening and a fine channel the answer differs about twentyfold: that is the width of the range")));
        assumptions.Add(new(Phrase.Words("A vacuum opens a leak as pressure does"),
            Phrase.Words("lip seals and some cracks close under vacuum: only pressure from inside shows those")));
        var missing = new List<Phrase>();
        if (!rise.TemperatureKnown) missing.Add(Phrase.Words("the temperature at each reading: a warming car looks like a leak"));
        if (onDial) missing.Add(Phrase.Words("an absolute (micron) gauge: a dial sees only gross leaks"));
        if (rows.Length < 4) missing.Add(Phrase.Words("at least four readings: only the bend of the rise tells water from a leak"));
        if (nitrogen is null) missing.Add(Phrase.Words("a nitrogen pressure test with soap: it pushes outward as refrigerant does, and sees leaks that a vacuum hold cannot"));
        return new(Step.Hold, Title, missing.Count <= 1 ? certainty : Certainty.Weak, judgement, verdict)
        {
            Why = nitrogen is null ? why : why.Then(nitrogen.Sentence),
            Estimates = nitrogen is null ? [.. estimates] : [.. estimates, .. nitrogen.Estimates],
            RestsOn = [.. rows.Select(row => row.Entry.Id), .. nitrogen?.Entries ?? []],
            Assumptions = [.. assumptions],
            Missing = [.. missing],
            Cautions = cautions,
            Next = Next(judgement),
        };
    }

    internal readonly record struct LeakLimits(double LeastKgPerS, double MostKgPerS, double SystemPa, double AirKgPerS);

    /// <summary>Refrigerant lost by a hole that this hold could just have seen: three standard deviations of the
    /// slope on top of what is seen, as air, then turned into refrigerant by either law of flow.</summary>
    private static LeakLimits Limits(JobRecord record, RiseTest rise, double volumeM3, double temperatureK)
    {
        var fluid = FluidOf(record.Car);
        var systemPa = fluid.SaturationAtTemperature(ReferenceSystemK).PressurePa;
        var airKgPerS = LeakEquivalent.AirKgPerS(rise.LargestSteadyPaPerS * volumeM3, temperatureK);
        var (least, most) = LeakEquivalent.RefrigerantPerAir(fluid.MolarMassKgPerMol, systemPa, 101_325);
        return new(airKgPerS * least, airKgPerS * most, systemPa, airKgPerS);
    }

    private static (Certainty, Judgement, Phrase, Phrase) Judge(JobRecord record, VacuumReading[] readings, RiseTest rise, LeakLimits limits, bool onDial, double partK)
    {
        var minutes = Measure.Seconds(readings[^1].SecondsSinceStart - readings[0].SecondsSinceStart);
        var range = (GramsPerYear(limits.LeastKgPerS), GramsPerYear(limits.MostKgPerS));
        var waterPa = WaterVapour.SaturationPressurePa(partK);
        var endPa = readings[^1].PressurePa;
        var why = Phrase.Of($"From {Vacuum(readings[0].PressurePa)} to {Vacuum(endPa)} in {minutes}, brought to one temperature.");
        if (rise.IsRising && !rise.LevelsOff)
        {
            return endPa < TightAndDryPa
                ? (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"Rises steadily, though still under {Vacuum(TightAndDryPa)}: gas from the oil or a small leak, of {range} as refrigerant at the most."), why)
                : (Certainty.Stands, Judgement.Bad, Phrase.Of($"It leaks: the pressure rises steadily, as from a hole that would lose {range} of refrigerant at the most."), why);
        }
        if (rise.LevelsOff && endPa > 0.15 * waterPa)
            return (Certainty.Weak, Judgement.Bad, Phrase.Of($"Levels off near {Vacuum(endPa)}: water is still boiling off inside (it could reach {Vacuum(waterPa)} at {At(partK)}). Pump on."), why);
        if (rise.LevelsOff && endPa > TightAndDryPa)
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"Levels off at {Vacuum(endPa)}, above the {Vacuum(TightAndDryPa)} that counts as dry: gas from the oil, or the last of the water. Pump on and hold again."), why);
        var leaks = LeakFinding.States(record);
        if (leaks.Any(state => state.Leaking))
            return (Certainty.Weak, Judgement.Bad, Phrase.Of($"It held, yet {string.Join(", ", leaks.Where(state => state.Leaking).Select(state => state.Spot))} leaked and is not mended: a vacuum pulls some leaks shut."), why);
        if (onDial)
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"It held {minutes} on a dial gauge, which shows gross leaks only: anything below {range} would not have been seen."), why);
        var open = leaks.Count(state => !state.Clear);
        var verdict = Phrase.Of($"Tight and dry: held {minutes} and ended at {Vacuum(endPa)}. A leak of more than {range} as refrigerant would have shown; a slower one only soap, detector or time can show.");
        return open == 0
            ? (Certainty.Stands, Judgement.Good, verdict, why)
            : (Certainty.Weak, Judgement.Good, verdict, why.Then(Phrase.Of($"{LeakFinding.Count(open, "spot is", "spots are")} not yet clear in the leak search.")));
    }

    private static ImmutableArray<NextAction> Next(Judgement judgement)
    {
        var nitrogen = new NextAction(Phrase.Words("Dry nitrogen to the rated test pressure, soap on every joint"), Phrase.Words("leaks that push outward; bubbles show where"), 30, EntryKinds.PressureTest);
        return judgement switch
        {
            Judgement.Good => [new(Phrase.Words("Weigh in the charge"), Phrase.Words("the right amount, to some grams"), 20, EntryKinds.ScaleReading), nitrogen],
            Judgement.Bad => [nitrogen, new(Phrase.Words("Cap and check the hoses and the gauge set alone"), Phrase.Words("whether the hose leaks, not the car"), 10, EntryKinds.VacuumReading)],
            _ => [nitrogen, new(Phrase.Words("Hold longer, with an absolute gauge and temperatures"), Phrase.Words("a smaller leak, in proportion to the time"), 60, EntryKinds.VacuumReading)],
        };
    }
}
