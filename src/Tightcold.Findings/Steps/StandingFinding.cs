using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Procedures.Standing;
using Tightcold.Properties;
using Tightcold.Quantities;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>What is left in the system, from pressures with the engine off.</summary>
internal static class StandingFinding
{
    private const string Title = "What is left";
    private const double Sure = 0.90;

    // A car whose coldest part is known no better has not one temperature yet.
    private const double SettledK = 2;

    private static readonly ImmutableArray<Phrase> Cautions =
    [
        Phrase.Words("Goggles and gloves on before a hose goes on a port: liquid refrigerant freezes skin and eyes."),
    ];

    public static Finding Of(JobRecord record)
    {
        var entry = AsItCame(record);
        if (entry is null || Read(record, entry) is not { } reading)
        {
            return new(Step.StandingPressure, Title, Certainty.NothingYet, Judgement.Open, Phrase.Words("Not read yet."))
            {
                Missing = entry is null ? [] : [Phrase.Words("a pressure: neither the low nor the high gauge was read")],
                Cautions = Cautions,
                Next = [new(Phrase.Words("Read both gauges with the engine cold and off, and the air temperature"), Phrase.Words("whether liquid is left, vapour only, or air got in"), 10, EntryKinds.StandingReading)],
            };
        }
        var fluid = FluidOf(record.Car);
        var volume = VolumeOf(record.Car);
        var earlier = EarlierAtOtherTemperature(record, entry, reading);
        var odds = earlier is { } other ? StandingOdds.From(fluid, other.Reading, reading.Standing) : StandingOdds.From(fluid, reading.Standing);
        var saturationPa = fluid.SaturationAtTemperature(reading.Standing.TemperatureK).PressurePa;
        var assumptions = new List<Assumption>(reading.Assumptions);
        if (volume.Assumption is { } assumed) assumptions.Add(assumed);
        var estimates = new List<Estimate>
        {
            Estimate.Normal("standing-pressure", "Standing pressure", QuantityKind.AbsolutePressure, reading.Standing.PressurePa, reading.Standing.PressureSigmaPa, EstimateOrigin.Measured, 0),
            Estimate.Normal("saturation-pressure", "With liquid inside it would stand at", QuantityKind.AbsolutePressure, saturationPa, StandingOdds.Sigma(fluid, reading.Standing with { PressureSigmaPa = 0 }), floor: 0),
        };
        var (judgement, verdict, why) = Judge(record, fluid, reading.Standing, odds, saturationPa, volume.M3, volume.RelativeSigma, estimates);
        if (Identification.Otherwise(record, [entry.Id]) is { } otherwise)
        {
            return new(Step.StandingPressure, Title, Certainty.Stands, Judgement.Bad,
                Phrase.Of($"Not {fluid.DisplayName} inside: the identifier says “{otherwise.Word}”. What is left cannot be told from its pressure."))
            {
                Why = reading.Note,
                Estimates = [estimates[0]],
                RestsOn = otherwise.Entry.Id == entry.Id ? [entry.Id] : [entry.Id, otherwise.Entry.Id],
                Assumptions = [.. assumptions],
                Missing = [.. reading.Missing],
                Cautions = [Identification.Caution, .. Cautions],
                Next = [Identification.Recover],
            };
        }

        if (reading.AtRest && OtherRefrigerant.Fitting(fluid, earlier is { } first ? [first.Reading, reading.Standing] : [reading.Standing]) is { IsEmpty: false } mayBe)
        {
            return new(Step.StandingPressure, Title, Certainty.Weak, Judgement.CannotTell,
                Phrase.Of($"Cannot tell. If it holds {fluid.DisplayName}: {verdict} But {mayBe[0].Fluid.DisplayName} with liquid inside would stand there too."))
            {
                Why = reading.Note.Then(why),
                Estimates = [.. estimates],
                RestsOn = [entry.Id],
                Assumptions = [.. assumptions],
                Missing = [.. reading.Missing],
                Cautions = [.. WrongRefrigerant(mayBe), .. Cautions],
                Next = [Identification.Identify, .. Next(odds).Take(2)],
            };
        }

        return new(Step.StandingPressure, Title, Math.Max(odds.VapourOnly, Math.Max(odds.LiquidPresent, odds.OtherGas)) >= Sure ? Certainty.Stands : Certainty.Weak, judgement, verdict)
        {
            Why = reading.Note.Then(why),
            Estimates = [.. estimates],
            RestsOn = earlier is { } before ? [before.Id, entry.Id] : [entry.Id],
            Assumptions = [.. assumptions],
            Missing = [.. reading.Missing],
            Cautions = Cautions,
            Next = Next(odds),
        };
    }

    /// <summary>The last standing reading before refrigerant was moved: what the car came with.</summary>
    private static Entry? AsItCame(JobRecord record)
    {
        var readings = record.Journal.OfKind(EntryKinds.StandingReading).ToArray();
        var moved = record.Journal.Standing.FirstOrDefault(entry => entry.Kind is EntryKinds.Recovery or EntryKinds.Opened or EntryKinds.Pump
            || (entry.Kind == EntryKinds.ContainerMoved && entry.Fields.Text("action") == "opened"));
        return moved is null ? readings.LastOrDefault()
            : readings.LastOrDefault(entry => entry.ObservedAt <= moved.ObservedAt) ?? readings.LastOrDefault();
    }

    private static (Judgement, Phrase, Phrase) Judge(
        JobRecord record, Fluid fluid, StandingReading reading, StandingOdds odds, double saturationPa, double volumeM3, double volumeSigma, List<Estimate> estimates)
    {
        var label = record.Car.LabelCharge?.Kilograms;
        if (odds.VapourOnly >= Sure)
        {
            var mass = StandingMass.VapourOnly(fluid, reading, volumeM3, volumeSigma, OilM3(record.Car));
            var estimate = Estimate.Normal("mass-left", "Refrigerant left", QuantityKind.Mass, mass.MeanKg, mass.SigmaKg, floor: 0);
            estimates.Add(estimate);
            var share = label is { } full
                ? Phrase.Of($", {(Share(estimate.Low!.Value / full), Share(estimate.High!.Value / full))} of the label charge")
                : Phrase.Empty;
            return (Judgement.Bad, Phrase.Of($"Vapour only: about {Kilograms(mass.MeanKg)} left ({(Kilograms(estimate.Low!.Value), Kilograms(estimate.High!.Value))}){share}."),
                Phrase.Of($"The pressure stands well below {Absolute(saturationPa)}, where liquid would hold it at {At(reading.TemperatureK)}. {Kilograms(mass.InVapourKg)} of it is vapour in the pipes, about {Kilograms(mass.InOilKg)} is dissolved in the oil."));
        }
        if (odds.LiquidPresent >= Sure)
        {
            var least = StandingMass.LiquidPresentLeastKg(fluid, reading, volumeM3, volumeSigma);
            estimates.Add(Estimate.AtLeast("mass-left", "Refrigerant left", QuantityKind.Mass, least));
            return (Judgement.CannotTell, Phrase.Of($"Liquid is present: at least {Kilograms(least)}, and this reading cannot say how much more."),
                Phrase.Of($"As long as a drop of liquid remains, the pressure stays at {Absolute(saturationPa)} for {At(reading.TemperatureK)}, whether the system is a fifth full or full."));
        }
        if (odds.OtherGas >= Sure)
        {
            var sigma = StandingOdds.Sigma(fluid, reading);
            var excess = reading.PressurePa - saturationPa;
            estimates.Add(Estimate.Normal("excess-pressure", "Pressure of the other gas", QuantityKind.PressureDifference, excess, sigma, floor: 0));
            return (Judgement.Bad, Phrase.Of($"Air or another gas is inside: the pressure stands {Difference(excess)} above what {fluid.DisplayName} alone can have at {At(reading.TemperatureK)}."),
                Phrase.Words("Recover it, evacuate and weigh in fresh; an unknown mixture is never reused or mixed into a clean cylinder."));
        }
        return (Judgement.CannotTell, Phrase.Of($"Cannot tell: vapour only {Odds(odds.VapourOnly)}, liquid present {Odds(odds.LiquidPresent)}, another gas {Odds(odds.OtherGas)}."),
            Phrase.Of($"The reading lies within its own uncertainty of {Absolute(saturationPa)}, the pressure with liquid inside at {At(reading.TemperatureK)}."));
    }

    private static ImmutableArray<NextAction> Next(StandingOdds odds)
    {
        var weigh = new NextAction(Phrase.Words("Have it recovered and weighed"), Phrase.Words("how much is in, to some grams: the only sure way while liquid is present"), 35, EntryKinds.Recovery);
        var warm = new NextAction(Phrase.Of($"Read again when the car is {Kelvins(10)} warmer or colder"), Phrase.Words("vapour barely moves, liquid moves the pressure by a quarter: decides between them"), 5, EntryKinds.StandingReading);
        var leaks = new NextAction(Phrase.Words("Search the leaks before adding anything"), Phrase.Words("where it went; a nearly empty system must be brought to pressure for that"), 30, EntryKinds.LeakCheck);
        return odds.VapourOnly >= Sure ? [leaks, weigh]
            : odds.LiquidPresent >= Sure ? [new(Phrase.Words("Run it and read both gauges"), Phrase.Words("whether the charge is enough to cool"), 10, EntryKinds.RunningReading), weigh]
            : odds.OtherGas >= Sure ? [Identification.Identify, weigh] : [warm, weigh];
    }

    /// <summary>“Cannot rule out” and never “is”: a gauge does not know what it stands on.</summary>
    internal static IEnumerable<Phrase> WrongRefrigerant(ImmutableArray<OtherRefrigerant> mayBe)
    {
        if (mayBe.IsEmpty) yield break;
        var others = mayBe.Skip(1).Aggregate(Named(mayBe[0]), (all, next) => Phrase.Of($"{all}, {Named(next)}"));
        yield return Phrase.Of($"Wrong or mixed refrigerant cannot be ruled out: with liquid inside it would stand where this car stands if it held {others}. A refrigerant identifier tells, gauges do not; until then nothing of it goes into a clean cylinder.");
    }

    private static Phrase Named(OtherRefrigerant other) => Phrase.Of($"{other.Fluid.DisplayName} ({Absolute(other.SaturationPa)})");

    /// <param name="AtRest">Both sides agree, and the car has one temperature.</param>
    internal sealed record Interpreted(StandingReading Standing, bool AtRest, Phrase Note, ImmutableArray<Assumption> Assumptions, ImmutableArray<Phrase> Missing);

    private static (Guid Id, StandingReading Reading)? EarlierAtOtherTemperature(JobRecord record, Entry last, Interpreted now)
    {
        foreach (var entry in record.Journal.OfKind(EntryKinds.StandingReading).Where(entry => entry.ObservedAt < last.ObservedAt).Reverse())
        {
            var moved = record.Journal.Standing.Any(other => other.ObservedAt > entry.ObservedAt && other.ObservedAt < last.ObservedAt
                && other.Kind is EntryKinds.Recovery or EntryKinds.ContainerMoved or EntryKinds.Opened or EntryKinds.Pump);
            if (moved) return null;
            if (Read(record, entry) is { } earlier && Math.Abs(earlier.Standing.TemperatureK - now.Standing.TemperatureK) >= 5)
                return (entry.Id, earlier.Standing);
        }
        return null;
    }

    internal static Interpreted? Read(JobRecord record, Entry entry)
    {
        var kit = record.KitAt(entry.ObservedAt);
        var sides = new[] { Gauge(entry, "low-side", kit), Gauge(entry, "high-side", kit) }.OfType<(double Pascals, double SigmaPa)>().ToArray();
        if (sides.Length == 0) return null;
        var air = AirPressure.At(record, entry.ObservedAt);
        var note = Phrase.Empty;
        var agree = true;
        var missing = new List<Phrase>();
        var assumptions = new List<Assumption>();
        if (air.Assumption is { } assumedAir) assumptions.Add(assumedAir);
        if (kit.LowGaugeZeroPa != 0 || kit.HighGaugeZeroPa != 0)
            note = Phrase.Of($"The gauges' own zero in open air ({Gauge(kit.LowGaugeZeroPa)} and {Gauge(kit.HighGaugeZeroPa)}) is taken off.");

        // Both sides say the same at rest; the better gauge counts more (weights 1/σ²).
        var weight = sides.Sum(side => 1 / (side.SigmaPa * side.SigmaPa));
        var gaugePa = sides.Sum(side => side.Pascals / (side.SigmaPa * side.SigmaPa)) / weight;
        var sigmaPa = Math.Sqrt(1 / weight + air.SigmaPa * air.SigmaPa);
        if (sides.Length == 2 && Math.Abs(sides[0].Pascals - sides[1].Pascals) > 3 * Math.Sqrt(sides.Sum(side => side.SigmaPa * side.SigmaPa)))
        {
            agree = false;
            note = note.Then(Phrase.Of($"The two sides differ by {Difference(Math.Abs(sides[0].Pascals - sides[1].Pascals))}, more than these gauges explain: not yet at rest, a hose valve shut, or a gauge off."));
            sigmaPa = Math.Max(sigmaPa, Math.Abs(sides[0].Pascals - sides[1].Pascals) / 2);
        }

        var (temperatureK, temperatureSigmaK) = Coldest(entry, kit, assumptions, missing);
        var pressurePa = Math.Max(gaugePa + air.Pascals, 100);
        return new(new(pressurePa, sigmaPa, temperatureK, temperatureSigmaK), agree && temperatureSigmaK <= SettledK, note, [.. assumptions], [.. missing]);
    }

    /// <summary>Liquid gathers in the coldest part and sets the pressure there; parts still warm from the engine
    /// only superheat the vapour. Spread between the spots and a short soak widen the belief.</summary>
    private static (double Kelvins, double SigmaKelvins) Coldest(Entry entry, Jobs.Kits.Kit kit, List<Assumption> assumptions, List<Phrase> missing)
    {
        var fields = new[] { "ambient-temperature", "condenser-temperature", "cabin-temperature" };
        var read = fields.Where(field => entry.Fields.Si(field) is not null).Select(field => entry.Fields.Si(field)!.Value).ToArray();
        var coldest = read.Min();
        var spread = (read.Max() - coldest) / 4;
        if (read.Length == 1)
        {
            missing.Add(Phrase.Words("the temperature of the condenser and of the cabin: liquid sits in the coldest part"));
            spread = 1;
        }
        var soak = 0.0;
        if (entry.Fields.Si("since-engine-ran") is { } seconds) soak = 6 * Math.Exp(-seconds / 3600);
        else
        {
            soak = 1;
            assumptions.Add(new(Phrase.Words("The engine has been off long enough for one temperature everywhere"),
                Phrase.Of($"one hour after a drive the parts may still differ by {Kelvins(2)}, and {Kelvins(1)} moves the pressure with liquid inside by about {Measure.Ratio(0.03)}")));
        }
        var thermometer = TemperatureSigma(entry, "ambient-temperature", kit);
        return (coldest, Math.Sqrt(thermometer * thermometer + spread * spread + soak * soak));
    }
}
