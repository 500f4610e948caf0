using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Procedures.Cold;
using Tightcold.Properties;
using Tightcold.Quantities;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The second proof: as cold as a healthy car in today's weather?</summary>
internal static class ColdFinding
{
    private const string Title = "Proven cold";

    private static readonly ImmutableArray<Phrase> Cautions =
        [Phrase.Words("Parking brake on, exhaust outside, hands and probe clear of the blower and the engine's belts.")];

    public static Finding Of(JobRecord record)
    {
        var entries = record.Journal.OfKind(EntryKinds.VentReading).ToArray();
        if (entries.Length == 0)
        {
            return new(Step.ProveCold, Title, Certainty.NothingYet, Judgement.Open, Phrase.Words("Not measured yet."))
            {
                Cautions = Cautions,
                Next = [new(Phrase.Words("Full blower, coldest setting, ten minutes; thermometer in the centre vent"), Phrase.Words("whether it cools as a healthy car would today"), 12, EntryKinds.VentReading)],
            };
        }
        var judged = entries.Select(entry => (Entry: entry, Result: Judge(record, entry))).ToArray();
        // The reading that a healthy car fits best decides: a settled one driving says more than a hot start.
        var (best, result) = judged.MaxBy(pair => pair.Result.Odds);
        var last = judged[^1];
        var odds = last.Result.Odds;
        if (odds < 0.5 && result.Odds > 0.9 && last.Entry != best)
            (best, result) = (last.Entry, last.Result);
        var vent = best.Fields.Get<Temperature>("vent-temperature")!.Value;
        var band = (At(result.Band.LowK), At(result.Band.HighK));
        var (judgement, verdict) = result.Odds switch
        {
            >= 0.8 => (Judgement.Good, Phrase.Of($"Cold: {vent} at the vent; a healthy car blows {band} in this weather. Odds that it cools as a healthy one: {Odds(result.Odds)}.")),
            <= 0.2 => (Judgement.Bad, Phrase.Of($"Not cold: {vent} at the vent, where a healthy car blows {band}. Odds that it cools as a healthy one: {Odds(result.Odds)}.")),
            _ => (Judgement.CannotTell, Phrase.Of($"Cannot tell: {vent} at the vent, a healthy car blows {band}; odds {Odds(result.Odds)}.")),
        };
        return new(Step.ProveCold, Title, result.Missing.Length == 0 ? Certainty.Stands : Certainty.Weak, judgement, verdict)
        {
            Why = Why(best, result),
            Estimates =
            [
                Estimate.Normal("vent", "Vent", QuantityKind.Temperature, vent.Kelvins, TemperatureSigma(best, "vent-temperature", record.KitAt(best.ObservedAt)), EstimateOrigin.Measured),
                Estimate.Between("healthy-vent", "A healthy car would blow", QuantityKind.Temperature, result.Band.MedianK, result.Band.LowK, result.Band.HighK, EstimateOrigin.Modelled),
            ],
            RestsOn = [.. entries.Select(entry => entry.Id)],
            Assumptions = result.Assumptions,
            Missing = result.Missing,
            Cautions = Cautions,
            Next = judgement == Judgement.Good
                ? [new(Phrase.Words("Print the card and set the next check"), Phrase.Words("next time the car tells how fast it leaks"), 3)]
                : [new(Phrase.Words("Read again after ten minutes at raised speed on recirculated air, out of the sun"), Phrase.Words("whether heat soak or a fault keeps it warm"), 12, EntryKinds.VentReading),
                   new(Phrase.Words("Read both gauges now"), Phrase.Words("which side is wrong"), 5, EntryKinds.RunningReading)],
        };
    }

    private sealed record Judged(VentBand Band, double Odds, double IntakeK, ImmutableArray<Assumption> Assumptions, ImmutableArray<Phrase> Missing);

    private static Judged Judge(JobRecord record, Entry entry)
    {
        var kit = record.KitAt(entry.ObservedAt);
        var air = AirPressure.At(record, entry.ObservedAt);
        var ambientK = entry.Fields.Si("ambient-temperature")!.Value;
        var assumptions = new List<Assumption>();
        var missing = new List<Phrase>();
        var humidity = entry.Fields.Si("relative-humidity") ?? record.WeatherAt(entry.ObservedAt)?.Fields.Si("relative-humidity");
        if (humidity is null)
        {
            missing.Add(Phrase.Words("humidity: from dry to damp air the vent differs by several degrees"));
            assumptions.Add(new(Phrase.Of($"Relative humidity {Share(0.5)}"), Phrase.Of($"dry or damp air moves the band by up to {Kelvins(6)}")));
        }
        var outside = HumidAir.FromRelativeHumidity(ambientK, humidity ?? 0.5, air.Pascals);
        var recirculated = entry.Fields.Text("air-source") == "recirculated";
        double intakeK = ambientK, ratio = outside.HumidityRatio, sigmaK = TemperatureSigma(entry, "ambient-temperature", kit);
        if (recirculated)
        {
            if (entry.Fields.Si("cabin-temperature") is { } cabin) (intakeK, sigmaK) = (cabin, TemperatureSigma(entry, "cabin-temperature", kit) + 1);
            else
            {
                missing.Add(Phrase.Words("the cabin air temperature at the blower's intake: on recirculation that is what gets cooled"));
                assumptions.Add(new(Phrase.Words("Cabin air as warm as outside"), Phrase.Words("a cooled cabin gives a colder vent, one heated by the sun a much warmer one")));
                sigmaK = 5;
            }
            // Recirculated air dries on the coil down to about 8 °C saturation; halfway there is taken.
            var dried = Math.Min(ratio, HumidAir.FromRelativeHumidity(281.15, 1, air.Pascals).HumidityRatio);
            ratio = 0.5 * (ratio + dried);
            assumptions.Add(new(Phrase.Words("Cabin air half as dried as the coil can make it"), Phrase.Of($"fully damp or fully dried moves the band by about {Kelvins(1.5)}")));
        }
        bool? moving = entry.Fields.Text("moving") == "driving" ? true
            : entry.Fields.Si("engine-speed") is { } speed ? speed * 60 > 1300 : entry.Fields.Text("moving") is null ? null : false;
        if (entry.Fields.Text("blower") is null) missing.Add(Phrase.Words("the blower setting: less air comes out colder"));
        var band = VentBand.Of(new(intakeK, ratio, sigmaK, ambientK, air.Pascals, entry.Fields.Text("blower"), moving, entry.Fields.Si("since-start")));
        var odds = band.OddsHealthy(entry.Fields.Si("vent-temperature")!.Value, TemperatureSigma(entry, "vent-temperature", kit));
        assumptions.Add(new(Phrase.Words("Capacity, airflow and coil of the middle of vehicle systems, spread wide; modelled, not measured on this car"),
            Phrase.Words("earlier healthy readings of this car would narrow the band")));
        return new(band, odds, intakeK, [.. assumptions], [.. missing]);
    }

    private static Phrase Why(Entry entry, Judged judged)
    {
        var air = entry.Fields.Text("air-source") == "recirculated" ? "recirculated" : "fresh";
        var why = Phrase.Of($"The blower takes {air} air at {At(judged.IntakeK)}; the coil must cool it and wring the water out of it.");
        if (entry.Fields.Text("moving") == "parked in the sun" && judged.IntakeK > 313)
            why = why.Then(Phrase.Words("A car standing in the sun stores heat that takes a drive to get out: a warm vent now is no failure by itself."));
        return entry.Fields.Si("vent-temperature") < 274.65
            ? why.Then(Phrase.Of($"Below {At(274.65)} the coil may ice up on a long drive: watch whether the air weakens.")) : why;
    }
}
