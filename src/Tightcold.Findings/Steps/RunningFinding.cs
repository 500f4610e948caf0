using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Procedures.Running;
using Tightcold.Properties;
using Tightcold.Quantities;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The gauges with the engine running, against today's heat.</summary>
internal static class RunningFinding
{
    private const string Title = "Running pressures";

    private static readonly ImmutableArray<Phrase> Cautions =
    [
        Phrase.Words("Hoses and sleeves clear of fan, belt and hot parts; parking brake on; exhaust gas outside."),
        Phrase.Words("The high hand valve stays shut while the engine runs: high-side pressure bursts a can."),
    ];

    public static Finding Of(JobRecord record)
    {
        var entry = record.Journal.Last(EntryKinds.RunningReading);
        if (entry is null)
        {
            return new(Step.RunningPressures, Title, Certainty.NothingYet, Judgement.Open, Phrase.Words("Not read yet."))
            {
                Cautions = Cautions,
                Next = [new(Phrase.Words("Run it cold on full blower for ten minutes, then read both gauges, vent and line temperatures"), Phrase.Words("which of the usual patterns it shows today"), 12, EntryKinds.RunningReading)],
            };
        }
        var kit = record.KitAt(entry.ObservedAt);
        var air = AirPressure.At(record, entry.ObservedAt);
        var fluid = FluidOf(record.Car);
        var ambient = entry.Fields.Si("ambient-temperature") ?? record.WeatherAt(entry.ObservedAt)?.Fields.Si("ambient-temperature");
        var estimates = new List<Estimate>();
        var missing = new List<Phrase>();
        var low = Side(fluid, entry, "low-side", "Low side boils at", kit, air, estimates, missing);
        var high = Side(fluid, entry, "high-side", "High side condenses at", kit, air, estimates, missing);
        Lines(entry, kit, low, high, estimates, missing);
        if (low is { } l && high is { } h)
        {
            var ratio = h.Pascals / l.Pascals;
            estimates.Add(Estimate.Normal("pressure-ratio", "Pressure ratio", QuantityKind.Number, ratio,
                ratio * Math.Sqrt(Math.Pow(l.SigmaPa / l.Pascals, 2) + Math.Pow(h.SigmaPa / h.Pascals, 2)), floor: 0));
        }
        var (certainty, judgement, verdict, why, next) = Judge(record.Car, ambient, low, high, missing);
        return new(Step.RunningPressures, Title, certainty, judgement, verdict)
        {
            Why = why.Then(LinesSay(estimates)),
            Estimates = [.. estimates],
            RestsOn = record.WeatherAt(entry.ObservedAt) is { } weather ? [weather.Id, entry.Id] : [entry.Id],
            Assumptions = air.Assumption is { } assumed ? [assumed] : [],
            Missing = [.. missing],
            Cautions = Cautions,
            Next = [.. next.Where(action => !(action == Patterns.Lines && estimates.Any(estimate => estimate.Key == "superheat") && estimates.Any(estimate => estimate.Key == "subcooling")))],
        };
    }

    /// <summary>What superheat and subcooling add. Healthy: superheat 3 to 8 K with an expansion valve, subcooling
    /// 5 to 12 K; common practice. Judged by the whole interval, so a poor clamp says nothing.</summary>
    private static Phrase LinesSay(List<Estimate> estimates)
    {
        var superheat = estimates.Find(estimate => estimate.Key == "superheat");
        var subcooling = estimates.Find(estimate => estimate.Key == "subcooling");
        if (superheat is null || subcooling is null) return Phrase.Empty;
        return (superheat, subcooling) switch
        {
            ({ Low: > 8 }, { High: < 5 }) => Phrase.Words("Superheat is high and hardly any liquid stands before the valve: the coil starves for want of refrigerant."),
            ({ Low: > 8 }, { Low: > 5 }) => Phrase.Words("Superheat is high though liquid stands before the valve: a restriction holds it back."),
            ({ High: < 3 }, _) => Phrase.Words("Hardly any superheat: liquid comes back to the compressor, as with a valve stuck open or too little air over the coil."),
            (_, { Low: > 12 }) => Phrase.Words("Much liquid stands in the condenser: too much refrigerant, or a restriction after it."),
            _ => Phrase.Words("Superheat and subcooling show nothing out of the ordinary, within what a clamp can tell."),
        };
    }

    private readonly record struct Reading(double Pascals, double SigmaPa, double SaturationK, double SaturationSigmaK);

    private static Reading? Side(
        Fluid fluid, Entry entry, string field, string name, Jobs.Kits.Kit kit, AirPressure air, List<Estimate> estimates, List<Phrase> missing)
    {
        if (Gauge(entry, field, kit) is not { } gauge)
        {
            missing.Add(Phrase.Words(field == "low-side" ? "the low-side pressure" : "the high-side pressure"));
            return null;
        }
        // A swinging needle: the middle counts, and the swing widens it.
        var swing = field == "low-side" && entry.Fields.Si("low-side-swing-to") is { } top ? top - kit.LowGaugeZeroPa - gauge.Pascals : 0;
        var pascals = gauge.Pascals + swing / 2 + air.Pascals;
        var sigma = Math.Sqrt(gauge.SigmaPa * gauge.SigmaPa + air.SigmaPa * air.SigmaPa + swing * swing / 12);
        if (pascals < 20e3 || pascals > 0.97 * fluid.CriticalPressurePa)
        {
            missing.Add(Phrase.Of($"a saturation temperature: {Absolute(pascals)} lies outside what {fluid.DisplayName} condenses at"));
            return null;
        }
        var saturation = fluid.SaturationAtPressure(pascals).TemperatureK;
        var slope = (fluid.SaturationAtPressure(pascals * 1.01).TemperatureK - fluid.SaturationAtPressure(pascals * 0.99).TemperatureK) / (0.02 * pascals);
        estimates.Add(Estimate.Normal(field == "low-side" ? "low-saturation" : "high-saturation", name, QuantityKind.Temperature, saturation, slope * sigma));
        return new(pascals, sigma, saturation, slope * sigma);
    }

    private static void Lines(Entry entry, Jobs.Kits.Kit kit, Reading? low, Reading? high, List<Estimate> estimates, List<Phrase> missing)
    {
        // A clamp on a pipe reads within about 1.5 K of the refrigerant; common practice.
        double Sigma(string field, double saturationSigma) =>
            Math.Sqrt(Math.Pow(TemperatureSigma(entry, field, kit), 2) + 1.5 * 1.5 + saturationSigma * saturationSigma);
        if (low is { } l)
        {
            if (entry.Fields.Si("suction-line-temperature") is { } suction)
                estimates.Add(Estimate.Normal("superheat", "Superheat at the suction line", QuantityKind.TemperatureDifference, suction - l.SaturationK, Sigma("suction-line-temperature", l.SaturationSigmaK)));
            else missing.Add(Phrase.Words("the suction line temperature: superheat tells a starved coil from a flooded one"));
        }
        if (high is { } h)
        {
            if (entry.Fields.Si("liquid-line-temperature") is { } liquid)
                estimates.Add(Estimate.Normal("subcooling", "Subcooling at the liquid line", QuantityKind.TemperatureDifference, h.SaturationK - liquid, Sigma("liquid-line-temperature", h.SaturationSigmaK)));
            else missing.Add(Phrase.Words("the liquid line temperature: subcooling tells how much liquid stands in the condenser"));
        }
    }

    private static (Certainty, Judgement, Phrase, Phrase, ImmutableArray<NextAction>) Judge(Car car, double? ambient, Reading? low, Reading? high, List<Phrase> missing)
    {
        if (low is not { } l || high is not { } h)
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Words("Cannot tell: one side alone never gives a pattern."), Phrase.Empty, [ReadAgain]);
        if (ambient is not { } outside)
        {
            missing.Add(Phrase.Words("today's air temperature: the same pressures are healthy in one weather and sick in another"));
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Words("Cannot tell without the air temperature."), Phrase.Empty, [ReadAgain]);
        }
        if (ExpectedBand.At(outside, car.Compressor == Car.Variable) is not { } band)
            return (Certainty.Weak, Judgement.CannotTell,
                Phrase.Of($"Cannot judge the pattern at {At(outside)}: the tables it is held against speak for {(At(ExpectedBand.ColdestAmbientK), At(ExpectedBand.HottestAmbientK))} only."), Phrase.Empty, [ReadAgain]);

        // Probe place, engine speed and car class shift both sides even when all is well.
        var lowState = SideState.Of(l.SaturationK, Math.Sqrt(l.SaturationSigmaK * l.SaturationSigmaK + 1), band.LowFromK, band.LowToK);
        var highState = SideState.Of(h.SaturationK, Math.Sqrt(h.SaturationSigmaK * h.SaturationSigmaK + 4), band.HighFromK, band.HighToK);
        var pattern = Patterns.Of(lowState.Likeliest, highState.Likeliest);
        var odds = lowState.LikeliestOdds * highState.LikeliestOdds;
        var why = Phrase.Of($"At {At(outside)} a healthy system boils at {(At(band.LowFromK), At(band.LowToK))} and condenses at {(At(band.HighFromK), At(band.HighToK))}, by a published test table and the trade's own; this one boils at {At(l.SaturationK)} and condenses at {At(h.SaturationK)}.");
        var side = Phrase.Of($"low side {Word(lowState.Likeliest)}, high side {Word(highState.Likeliest)} for {At(outside)}");
        if (odds < 0.6)
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"On the edge: {side}, but with these gauges only {Odds(odds)} sure of that."), why, [ReadAgain, .. pattern.Next.Take(2)]);
        return lowState.Likeliest == 0 && highState.Likeliest == 0
            ? (Certainty.Stands, Judgement.Good, Phrase.Of($"Normal for today: {side} ({Odds(odds)} sure)."), why.Then(pattern.Meaning), pattern.Next)
            : (Certainty.Stands, Judgement.Bad, Phrase.Of($"Not normal: {side} ({Odds(odds)} sure). {pattern.Meaning}"), why, pattern.Next);
    }

    private static readonly NextAction ReadAgain =
        new(Phrase.Words("Read again with both gauges, air, vent and line temperatures"), Phrase.Words("a pattern that can be judged"), 10, EntryKinds.RunningReading);

    private static string Word(int state) => state switch { < 0 => "low", 0 => "normal", _ => "high" };
}
