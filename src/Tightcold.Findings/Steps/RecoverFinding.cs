using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Procedures.Charging;
using Tightcold.Procedures.Recovery;
using Tightcold.Properties;
using Tightcold.Quantities;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>What was taken out, into which cylinder, whether the cylinder may hold it, whether it was all, and by
/// which rules.</summary>
internal static class RecoverFinding
{
    private const string Title = "Recovery";
    private const string Unknown = "mixed or unknown";

    /// <summary>Oil comes along with what is recovered: circulation ratios of 1 to 5 % (trade's figure, from memory).</summary>
    private const double OilAlong = 0.02;

    private static readonly ImmutableArray<Phrase> Law =
    [
        Phrase.Words("Letting refrigerant out on purpose is forbidden in most places, for owners too; who may recover, with what equipment and record, differs: check local rules."),
        Phrase.Words("Only into a refillable recovery cylinder within its test date, never a disposable one; never mix refrigerants."),
    ];

    public static Finding Of(JobRecord record)
    {
        var recoveries = record.Journal.OfKind(EntryKinds.Recovery).ToArray();
        var place = RuleBook.For(record.Kit.Fields.Text("jurisdiction"));
        var cautions = new List<Phrase>(Law);
        if (StandingFinding.Of(record).Estimates.Any(estimate => estimate.Key == "excess-pressure"))
            cautions.Insert(0, Phrase.Words("The standing pressure says that another gas is inside: recover it into a cylinder of its own, marked mixed or unknown; never reuse it, never mix it into a clean one."));
        if (recoveries.Length == 0)
        {
            return new(Step.Recover, Title, Certainty.NothingYet, Judgement.Open, Phrase.Words("Nothing recovered yet."))
            {
                Cautions = [.. cautions],
                Next = [new(Phrase.Words("Before a joint is opened: have what is left recovered and weighed"), Phrase.Words("how much was in, and it stays lawful"), 35, EntryKinds.Recovery)],
                Table = Rules(place),
            };
        }
        var balance = MassBalance.Of(record);
        var fluid = FluidOf(record.Car);
        var missing = new List<Phrase>();
        var estimates = new List<Estimate>();
        var variance = recoveries.Sum(entry => 2 * Math.Pow(MassSigma(entry, "gross-after", record.KitAt(entry.ObservedAt)), 2)) + Math.Pow(OilAlong * balance.RecoveredKg, 2);
        var sigma = Math.Sqrt(variance);
        estimates.Add(Estimate.Normal("recovered", "Recovered, oil that came along included", QuantityKind.Mass, balance.RecoveredKg, sigma, EstimateOrigin.Measured, 0));
        var overfilled = Cylinders(balance, recoveries, fluid, record, estimates, cautions, missing);
        var (end, ended) = End(record, recoveries[^1], fluid, estimates, missing);
        var thought = Thought(record, balance.RecoveredKg, sigma, end);
        Papers(record, recoveries, place, missing);
        var judgement = overfilled ? Judgement.Bad : ended == false || thought is { Contradict: true } ? Judgement.CannotTell : Judgement.Good;
        return new(Step.Recover, Title, missing.Count == 0 ? Certainty.Stands : Certainty.Weak, judgement, Verdict(record, balance.RecoveredKg, ended))
        {
            Why = Why(thought, place),
            Estimates = [.. estimates],
            RestsOn = [.. recoveries.Select(entry => entry.Id)],
            Missing = [.. missing],
            Cautions = [.. cautions],
            Next = ended == false
                ? [new(Phrase.Words("Recover again, wait five minutes, read the gauge"), Phrase.Words("whether the oil still gives off refrigerant"), 15, EntryKinds.Recovery)]
                : [new(Phrase.Words("Open the joints, mend, cap what stays open"), Phrase.Words("nothing more gets wet than must"), 60, EntryKinds.SealChanged)],
            Table = Rules(place),
        };
    }

    private static Phrase Verdict(JobRecord record, double recoveredKg, bool? ended)
    {
        var amount = record.Car.LabelCharge?.Kilograms is { } full
            ? Phrase.Of($"{Kilograms(recoveredKg)} recovered, {Share(recoveredKg / full)} of the label charge")
            : Phrase.Of($"{Kilograms(recoveredKg)} recovered");
        return ended == false ? Phrase.Of($"{amount}; not at its end: the pressure rose again.") : Phrase.Of($"{amount}.");
    }

    /// <summary>Fill of each cylinder that was used.</summary>
    private static bool Cylinders(MassBalance balance, Entry[] recoveries, Fluid fluid, JobRecord record, List<Estimate> estimates, List<Phrase> cautions, List<Phrase> missing)
    {
        var overfilled = false;
        foreach (var name in recoveries.Select(entry => entry.Fields.Text("container")!).Distinct(StringComparer.OrdinalIgnoreCase))
        {
            if (!balance.Holdings.TryGetValue(name, out var holding) || holding.Container.WaterCapacity is not { } capacity) continue;
            // Of an unknown mixture the density is unknown too: three quarters of the usual fill.
            var unknown = holding.Container.Refrigerant == Unknown;
            var hottestK = record.Journal.OfKind(EntryKinds.Weather).Select(entry => entry.Fields.Si("ambient-temperature") ?? 0).DefaultIfEmpty(0).Max();
            var most = CylinderFill.MostNetKg(fluid, capacity.Kilograms, hottestK) * (unknown ? 0.75 : 1);
            if (holding.Container.Tare is null)
            {
                missing.Add(Phrase.Of($"the tare of {name}: without it the fill of the cylinder is not known"));
                continue;
            }
            if (holding.NetKg > most)
            {
                overfilled = true;
                cautions.Insert(0, Phrase.Of($"{name} holds {Kilograms(holding.NetKg)}, more than the {Kilograms(most)} it may (80 % full at {At(Math.Max(CylinderFill.ReferenceK, hottestK))}): it can burst when it warms. Move some to another cylinder now."));
            }
            else cautions.Add(Phrase.Of($"{name} holds {Kilograms(holding.NetKg)} of the {Kilograms(most)} it may{(unknown ? ", cautiously, since its contents are unknown" : "")}; {Kilograms(most - holding.NetKg)} of room."));
        }
        return overfilled;
    }

    /// <summary>True at its end, false not, null when nobody waited.</summary>
    private static (RecoveryEnd? End, bool? Ended) End(JobRecord record, Entry last, Fluid fluid, List<Estimate> estimates, List<Phrase> missing)
    {
        var kit = record.KitAt(last.ObservedAt);
        if (Gauge(last, "final-pressure", kit) is not { } final)
        {
            missing.Add(Phrase.Words("the pressure at the end and five minutes later: a rise means there is more to take out of the oil"));
            return (null, null);
        }
        var plusMinus = kit.LowGaugePlusMinusPa / SigmasInPlusMinus;
        var waited = last.Fields.Si("pressure-after-wait") is { } after ? after - kit.LowGaugeZeroPa : (double?)null;
        var temperatureK = record.WeatherAt(last.ObservedAt)?.Fields.Si("ambient-temperature") ?? 298.15;
        var end = RecoveryEnd.Of(fluid, VolumeOf(record.Car).M3, OilM3(record.Car), temperatureK, final.Pascals, waited ?? final.Pascals, plusMinus, AirPressure.At(record, last.ObservedAt).Pascals);
        estimates.Add(Estimate.Between("left-inside", "Still inside, in vapour and oil", QuantityKind.Mass, 0.5 * (end.LeftLeastKg + end.LeftMostKg), end.LeftLeastKg, end.LeftMostKg, EstimateOrigin.Computed));
        if (waited is null) return (end, null);
        if (!(last.Fields.Si("waited") >= RecoveryEnd.LeastWaitS - 1))
            missing.Add(Phrase.Of($"a wait of {Measure.Seconds(RecoveryEnd.LeastWaitS)} or more: the oil gives off its refrigerant slowly"));
        return (end, end.Done >= 0.5);
    }

    private static RecoveredAgainst? Thought(JobRecord record, double recoveredKg, double sigma, RecoveryEnd? end)
    {
        var left = StandingFinding.Of(record).Estimates.FirstOrDefault(estimate => estimate.Key == "mass-left");
        if (left is not { Median: { } median, Low: { } low, High: { } high }) return null;
        var thoughtSigma = (high - low) / (2 * Estimate.Z90);
        var inside = end is { } known ? 0.5 * (known.LeftLeastKg + known.LeftMostKg) : 0.01;
        return RecoveredAgainst.Of(recoveredKg, Math.Sqrt(sigma * sigma + 1e-5), median, thoughtSigma, inside);
    }

    private static Phrase Why(RecoveredAgainst? thought, Jurisdiction place)
    {
        var rules = Phrase.Of($"Rules: {place.Name}. {RuleBook.AlwaysSay}");
        if (thought is not { } against) return rules;
        return (against.Contradict
            ? against.DifferenceKg > 0
                ? Phrase.Of($"{Kilograms(against.DifferenceKg)} more came out than the standing pressure allowed: a gauge off, another temperature in the parts, or liquid was hidden somewhere.")
                : Phrase.Of($"{Kilograms(-against.DifferenceKg)} less came out than the standing pressure said: some is still inside, or it was lost on the way.")
            : Phrase.Words("What came out agrees with what the standing pressure said was in.")).Then(rules);
    }

    private static void Papers(JobRecord record, Entry[] recoveries, Jurisdiction place, List<Phrase> missing)
    {
        _ = record;
        if (recoveries.All(entry => entry.Fields.Text("certificate") is null))
            missing.Add(Phrase.Words("certificate or licence of who recovered, where the rules ask for a record"));
        foreach (var keep in place.Rules.Where(rule => rule.Keep is not null && rule.BindsOwners).Select(rule => rule.Keep!).Distinct())
            if (recoveries.All(entry => entry.Fields.Text("certificate") is null)) missing.Add(Phrase.Of($"to keep in {place.Name}: {keep}"));
    }

    private static FindingTable Rules(Jurisdiction place) => new($"Rules of {place.Name}; {RuleBook.AlwaysSay}", ["What", "Where it stands", "How sure"],
        [.. place.Rules.Select(rule => ImmutableArray.Create(
            Phrase.Words(rule.What + (rule.BindsOwners ? "" : " (binds whoever works for pay)")), Phrase.Words($"{rule.Paragraph}; {rule.Date}"),
            Phrase.Words(rule.Sure switch { "looked-up" => "text looked up", "memory" => "from memory, text not seen", _ => "common practice" })))]);
}
