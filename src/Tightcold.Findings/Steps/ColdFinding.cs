using System.Collections.Immutable;
using Tightcold.Diagnosis.Acceptance;
using Tightcold.Findings.WeighIn;
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
    private const double Sure = 0.8;

    private static readonly ImmutableArray<Phrase> Cautions =
        [Phrase.Words("Parking brake on, exhaust outside, hands and probe clear of the blower and the engine's belts.")];

    public static Finding Of(JobViews views)
    {
        var record = views.Record;
        var entries = record.Journal.OfKind(EntryKinds.VentReading).ToArray();
        if (entries.Length == 0)
        {
            return new(Step.ProveCold, Title, Certainty.NothingYet, Judgement.Open, Phrase.Words("Not measured yet."))
            {
                Cautions = Cautions,
                Next = [new(Phrase.Words("Full blower, coldest setting, ten minutes; thermometer in the centre vent"), Phrase.Words("whether it cools as a healthy car would today"), 12, EntryKinds.VentReading)],
            };
        }
        var judged = entries.Select(entry => Judged.Of(record, entry, views.VentCars)).ToArray();
        var proof = ColdProof.Of([.. judged.Select(reading => reading.Observation)]);
        // All readings together decide; a settled last one that no healthy car gives stands against earlier good ones:
        // it got warm again.
        var last = proof.Each[^1];
        var warmAgain = last < 1 - Sure && proof.Each.Max() > Sure && judged[^1].IsSettled;
        var odds = warmAgain ? Math.Min(last, proof.OddsHealthy) : proof.OddsHealthy;
        var shown = warmAgain ? judged[^1] : judged[Telling(judged)];
        var (judgement, verdict) = Say(shown, odds, warmAgain, entries.Length);
        return new(Step.ProveCold, Title, shown.Missing.Length == 0 ? Certainty.Stands : Certainty.Weak, judgement, verdict)
        {
            Why = Why(judged, shown, judgement, record),
            Estimates = [.. Estimates(record, judged, shown, proof)],
            RestsOn = [.. entries.Select(entry => entry.Id)],
            Assumptions = shown.Assumptions,
            Missing = shown.Missing,
            Cautions = [.. Icing(record, judged), .. Cautions],
            Next = judgement == Judgement.Good
                ? [new(Phrase.Words("Print the card and set the next check"), Phrase.Words("next time the car tells how fast it leaks"), 3)]
                : [new(Phrase.Words("Read again after ten minutes at raised speed on recirculated air, out of the sun"), Phrase.Words("whether heat soak or a fault keeps it warm"), 12, EntryKinds.VentReading),
                   new(Phrase.Words("Read both gauges now"), Phrase.Words("which side is wrong"), 5, EntryKinds.RunningReading)],
            Table = entries.Length > 1 ? Table(judged, proof) : null,
        };
    }

    /// <summary>The reading that tells most: the last settled one, else the last.</summary>
    private static int Telling(Judged[] judged)
    {
        for (var i = judged.Length - 1; i >= 0; i--)
            if (judged[i].IsSettled) return i;
        return judged.Length - 1;
    }

    private static (Judgement, Phrase) Say(Judged shown, double odds, bool warmAgain, int count)
    {
        var band = (At(shown.Observation.Band.LowK), At(shown.Observation.Band.HighK));
        var vent = At(shown.Observation.VentK);
        var all = count == 1 ? Phrase.Empty : Phrase.Of($" over all {count} readings");
        if (warmAgain)
            return (Judgement.Bad, Phrase.Of($"It got warm again: {vent} at the vent at the end, where a healthy car blows {band}. Odds that it cools as a healthy one: {Odds(odds)}."));
        return odds switch
        {
            >= Sure => (Judgement.Good, Phrase.Of($"Cold: {vent} at the vent; a healthy car blows {band} in this weather. Odds that it cools as a healthy one{all}: {Odds(odds)}.")),
            <= 1 - Sure => (Judgement.Bad, Phrase.Of($"Not cold: {vent} at the vent, where a healthy car blows {band}. Odds that it cools as a healthy one{all}: {Odds(odds)}.")),
            _ => (Judgement.CannotTell, Phrase.Of($"Cannot tell: {vent} at the vent, a healthy car blows {band}; odds{all} {Odds(odds)}.")),
        };
    }

    private static IEnumerable<Estimate> Estimates(JobRecord record, Judged[] judged, Judged shown, ColdProof proof)
    {
        var band = shown.Observation.Band;
        yield return Estimate.Normal("vent", "Vent", QuantityKind.Temperature, shown.Observation.VentK, shown.Observation.ThermometerSigmaK, EstimateOrigin.Measured);
        yield return Estimate.Between("healthy-vent", "A healthy car would blow", QuantityKind.Temperature, band.MedianK, band.LowK, band.HighK, EstimateOrigin.Modelled);
        // All the weight on a healthy car: the share would say nothing more.
        if (proof.ShareLow < 0.98) yield return Estimate.Between("cooling-share", "Cooling, of a healthy car's", QuantityKind.Ratio, proof.ShareMedian, proof.ShareLow, proof.ShareHigh, EstimateOrigin.Modelled);
        if (PullDown.Fit([.. judged.Where(reading => reading.SinceStartS is not null).Select(reading => (reading.SinceStartS!.Value, reading.Observation.VentK))]) is { Falling: true } fit && fit.EndK > 255)
            yield return Estimate.Normal("pull-down-end", "The vent is on its way to", QuantityKind.Temperature, fit.EndK, 1 + fit.ResidualK, EstimateOrigin.Computed);
        if (proof.OddsHealthy < Sure && Charge(record) is { } charge)
        {
            yield return Estimate.Between("charge-explains", "Warmer at the most by the charge being off", QuantityKind.TemperatureDifference, 0, 0, band.WarmerByK(charge.Least, charge.Most), EstimateOrigin.Modelled);
        }
    }

    /// <summary>Charge over the right charge, 95 % limits as weighed; null when nothing was weighed in.</summary>
    private static (double Least, double Most)? Charge(JobRecord record)
    {
        var live = LiveWeighIn.Of(record);
        if (live is not { TargetKg: { } target, Begun: true, Balance.SystemKnown: true }) return null;
        var off = SigmasInPlusMinus * live.SigmaKg;
        return (Math.Max(0, (live.Balance.SystemKg - off) / target), Math.Max(0, (live.Balance.SystemKg + off) / target));
    }

    private static Phrase Why(Judged[] judged, Judged shown, Judgement judgement, JobRecord record)
    {
        var air = shown.Recirculated ? "recirculated" : "fresh";
        var why = Phrase.Of($"The blower takes {air} air at {At(shown.Observation.Weather.IntakeK)}; the coil must cool it and wring the water out of it.");
        if (judged.FirstOrDefault(reading => reading.ParkedInSun && reading.Observation.Weather.IntakeK > 313) is { } hot)
            why = why.Then(Phrase.Of($"A car standing in the sun stores heat that takes a drive to get out: {At(hot.Observation.VentK)} at the vent then is no failure by itself."));
        if (judgement != Judgement.Good)
        {
            var off = shown.Observation.VentK - shown.Observation.Band.MedianK;
            if (off > 1 && Charge(record) is { } charge)
            {
                var explains = shown.Observation.Band.WarmerByK(charge.Least, charge.Most);
                why = why.Then(explains >= off
                    ? Phrase.Of($"It is {Kelvins(off)} warmer than the middle car; a charge off by what the scale leaves open could explain all of it.")
                    : Phrase.Of($"It is {Kelvins(off)} warmer than the middle car; the charge as weighed explains at most {Kelvins(explains)} of it: look at airflow over the condenser, blend door, compressor."));
            }
        }
        return why;
    }

    private static IEnumerable<Phrase> Icing(JobRecord record, Judged[] judged)
    {
        var settled = judged[Telling(judged)];
        var gauge = record.Journal.OfKind(EntryKinds.RunningReading).LastOrDefault(entry => entry.Fields.Si("low-side") is not null
            && Math.Abs((entry.ObservedAt - settled.Entry.ObservedAt).TotalMinutes) < 45);
        double? boilingK = null;
        if (gauge is not null)
        {
            var pascals = gauge.Fields.Si("low-side")!.Value - record.KitAt(gauge.ObservedAt).LowGaugeZeroPa + AirPressure.At(record, gauge.ObservedAt).Pascals;
            if (pascals is > 5e4 and < 1e6) boilingK = FluidOf(record.Car).SaturationAtPressure(pascals).TemperatureK;
        }
        var risk = IcingRisk.Of(settled.Observation, boilingK);
        if (risk.Chance >= 0.2)
            yield return Phrase.Of($"The coil may ice up on a long drive ({Odds(risk.Chance)}): its fins stand near or below {At(273.15)} in damp air. Watch whether the air weakens; then the freeze protection is not working.");
    }

    private static FindingTable Table(Judged[] judged, ColdProof proof) => new("Vent readings in time", ["Since on", "Air", "Vent", "A healthy car", "As a healthy one"],
        [.. judged.Select((reading, index) => ImmutableArray.Create(
            reading.SinceStartS is { } seconds ? Phrase.Of($"{Measure.Seconds(seconds)}") : Phrase.Words("not written down"),
            Phrase.Of($"{(reading.Recirculated ? "recirculated" : "fresh")}, {At(reading.Observation.Weather.IntakeK)}{(reading.ParkedInSun ? ", parked in the sun" : "")}"),
            Phrase.Of($"{At(reading.Observation.VentK)}"),
            Phrase.Of($"{(At(reading.Observation.Band.LowK), At(reading.Observation.Band.HighK))}"),
            Phrase.Of($"{Odds(proof.Each[index])}")))]);

    /// <summary>One reading with what it is judged against.</summary>
    private sealed record Judged(Entry Entry, VentObservation Observation, bool Recirculated, bool ParkedInSun, double? SinceStartS, ImmutableArray<Assumption> Assumptions, ImmutableArray<Phrase> Missing)
    {
        /// <summary>Ten minutes after the A/C was switched on, or nobody said when.</summary>
        public bool IsSettled => !(SinceStartS < 480);

        public static Judged Of(JobRecord record, Entry entry, LoopCars cars)
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
            var inSun = entry.Fields.Text("moving") == "parked in the sun";
            double intakeK = ambientK, ratio = outside.HumidityRatio, sigmaK = TemperatureSigma(entry, "ambient-temperature", kit);
            if (recirculated)
            {
                if (entry.Fields.Si("cabin-temperature") is { } cabin) (intakeK, sigmaK) = (cabin, TemperatureSigma(entry, "cabin-temperature", kit) + 1);
                else
                {
                    missing.Add(Phrase.Words("the cabin air temperature at the blower's intake: on recirculation that is what gets cooled"));
                    // A cabin closed in the sun stands 10 to 25 K above the air; it loses that in some ten minutes. Common practice.
                    var soaked = inSun ? 14 * Math.Exp(-(entry.Fields.Si("since-start") ?? 0) / 600) : 0;
                    assumptions.Add(new(inSun ? Phrase.Of($"Cabin air {Kelvins(soaked)} warmer than outside, as a car heated by the sun") : Phrase.Words("Cabin air as warm as outside"),
                        Phrase.Words("a cooled cabin gives a colder vent, one heated by the sun a much warmer one")));
                    (intakeK, sigmaK) = (ambientK + soaked, inSun ? 7 : 5);
                }
                // Recirculated air dries on the coil down to about 8 °C saturation; halfway there is taken.
                var dried = Math.Min(ratio, HumidAir.FromRelativeHumidity(281.15, 1, air.Pascals).HumidityRatio);
                ratio = 0.5 * (ratio + dried);
                assumptions.Add(new(Phrase.Words("Cabin air half as dried as the coil can make it"), Phrase.Of($"fully damp or fully dried moves the band by about {Kelvins(1.5)}")));
            }
            bool? moving = entry.Fields.Text("moving") == "driving" ? true
                : entry.Fields.Si("engine-speed") is { } speed ? speed * 60 > 1300 : entry.Fields.Text("moving") is null ? null : false;
            if (entry.Fields.Text("blower") is null) missing.Add(Phrase.Words("the blower setting: less air comes out colder"));
            var since = entry.Fields.Si("since-start");
            assumptions.Add(new(Phrase.Words("Compressor, condenser, coil and airflow as cars with such a label have them, spread wide and run through a model; not measured on this car"),
                Phrase.Words("earlier healthy readings of this car would narrow the band")));
            var observation = VentObservation.Of(new(intakeK, ratio, sigmaK, ambientK, air.Pascals, entry.Fields.Text("blower"), moving, since, inSun),
                entry.Fields.Si("vent-temperature")!.Value, TemperatureSigma(entry, "vent-temperature", kit), cars);
            return new(entry, observation, recirculated, inSun, since, [.. assumptions], [.. missing]);
        }
    }
}
