using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Procedures;
using Tightcold.Procedures.Charging;
using Tightcold.Quantities;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The charge by weight: target, plan over the containers at hand, running balance.</summary>
internal static class WeighInFinding
{
    private const string Title = "Charge by weight";

    /// <summary>Common label tolerances are 15 to 30 g; used when the label gives none.</summary>
    private const double UsualToleranceKg = 0.020;

    private static readonly ImmutableArray<Phrase> Cautions =
    [
        Phrase.Words("Can valve to the low side only, never to the high side; upright can (vapour) while the engine runs: liquid breaks the compressor."),
        Phrase.Of($"Warm a can with warm water only, never above {At(EntryRules.HighestBathKelvins)}, never with a flame."),
        Phrase.Words("Goggles and gloves: escaping refrigerant freezes. Fresh air: it is heavier than air and gathers in pits."),
    ];

    public static Finding Of(JobRecord record)
    {
        if (record.Car.LabelCharge is not { } label)
        {
            return new(Step.WeighIn, Title, Certainty.NothingYet, Judgement.CannotTell, Phrase.Words("No target: the label charge is not known."))
            {
                Missing = [Phrase.Words("the charge from the plate under the bonnet or the maker's book; guessing it costs cooling or the compressor")],
                Cautions = Cautions,
            };
        }
        var balance = MassBalance.Of(record);
        var target = label.Kilograms;
        var tolerance = record.Car.LabelTolerance?.Kilograms ?? UsualToleranceKg;
        var begun = balance.DrawnKg > 0;
        var toGo = target - (balance.SystemKnown || begun ? balance.SystemKg : 0);
        var sigma = Math.Sqrt(balance.SystemVarianceKg2);
        var stock = Stocks(record, balance);
        var plan = toGo > 0 ? ChargePlan.Make(FluidOf(record.Car), toGo, stock, balance.HoseVolumeM3, AirK(record)) : null;
        var estimates = new List<Estimate>
        {
            Estimate.Between("target", "Target from the label", QuantityKind.Mass, target, target - tolerance, target + tolerance, EstimateOrigin.Assumed),
        };
        if (begun) estimates.Add(Estimate.Normal("in-system", "In the system now", QuantityKind.Mass, balance.SystemKg, sigma, floor: 0));
        if (balance.HosesKg > 0) estimates.Add(Estimate.Normal("in-hoses", "In the hoses", QuantityKind.Mass, balance.HosesKg, 0.3 * balance.HosesKg, floor: 0));
        if (plan is not null) estimates.Add(Estimate.Normal("to-hoses", "Hoses will keep", QuantityKind.Mass, plan.HoseKg, 0.3 * plan.HoseKg, floor: 0));
        var missing = Missing(record, balance, begun);
        var (certainty, judgement, verdict) = Judge(balance, target, tolerance, toGo, sigma, begun, plan);
        return new(Step.WeighIn, Title, missing.Length > 0 && certainty == Certainty.Stands ? Certainty.Weak : certainty, judgement, verdict)
        {
            Why = Why(balance, plan),
            Estimates = [.. estimates],
            RestsOn = [.. record.Journal.Standing.Where(entry => entry.Kind is EntryKinds.ScaleReading or EntryKinds.ContainerMoved or EntryKinds.Purge).Select(entry => entry.Id)],
            Assumptions = record.Car.LabelTolerance is null
                ? [new(Phrase.Of($"Tolerance ± {Kilograms(tolerance)}: the label gives none"), Phrase.Words("small systems ask for less"))] : [],
            Missing = missing,
            Cautions = Cautions,
            Next = judgement == Judgement.Good
                ? [new(Phrase.Words("Close the can, let the hose run empty into the system, then prove it cold"), Phrase.Words("whether the repair does what it should"), 15, EntryKinds.VentReading)]
                : [new(Phrase.Words("Write down the scale reading"), Phrase.Words("grams to go and the next stop"), 1, EntryKinds.ScaleReading)],
            Table = plan is { Steps.Length: > 0 } && judgement != Judgement.Good ? PlanTable(plan) : null,
        };
    }

    private static (Certainty, Judgement, Phrase) Judge(MassBalance balance, double target, double tolerance, double toGo, double sigma, bool begun, ChargePlan? plan)
    {
        if (!balance.SystemKnown && begun)
            return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"{Kilograms(balance.DrawnKg)} added to an unknown rest: the charge is not known. Recover, evacuate and weigh in from empty."));
        if (!begun)
        {
            if (plan is null || plan.Steps.Length == 0)
                return (Certainty.Weak, Judgement.Open, Phrase.Of($"Target {Kilograms(target)}. No can or cylinder with this refrigerant is in the kit."));
            return plan.ShortKg > 0
                ? (Certainty.Weak, Judgement.Open, Phrase.Of($"Target {Kilograms(target)}: the cans at hand fall {Kilograms(plan.ShortKg)} short."))
                : (Certainty.Stands, Judgement.Open, Phrase.Of($"Target {Kilograms(target)}: draw {Kilograms(plan.NeedKg)} from {string.Join(", then ", plan.Steps.Select(step => step.Container))}."));
        }
        var spread = Math.Max(sigma, 1e-4);
        var within = Normal.Cumulative((target + tolerance - balance.SystemKg) / spread) - Normal.Cumulative((target - tolerance - balance.SystemKg) / spread);
        var amount = Phrase.Of($"{Kilograms(balance.SystemKg)} ± {Kilograms(SigmasInPlusMinus * sigma)} in the system of {Kilograms(target)}");
        if (within >= 0.8) return (Certainty.Stands, Judgement.Good, Phrase.Of($"{amount}: within ± {Kilograms(tolerance)} ({Odds(within)} sure)."));
        if (toGo < -tolerance) return (Certainty.Stands, Judgement.Bad, Phrase.Of($"{amount}: {Kilograms(-toGo)} too much. Recover the surplus; never let it out."));
        if (toGo > tolerance || within < 0.5) return (Certainty.Stands, Judgement.Open, Phrase.Of($"{amount}: {Kilograms(Math.Max(0, toGo))} to go."));
        return (Certainty.Weak, Judgement.CannotTell, Phrase.Of($"{amount}: {Odds(within)} sure to be within ± {Kilograms(tolerance)}; a better scale would tell."));
    }

    private static Phrase Why(MassBalance balance, ChargePlan? plan)
    {
        if (plan is not { Steps.Length: > 0 } || plan.ShortKg > 0) return Phrase.Empty;
        return Phrase.Of($"Of what leaves the cans, {Kilograms(plan.HoseKg)} stays in the hoses as vapour. {(balance.DrawnKg > 0 ? "From here on: " : "")}{StopText(plan)}");
    }

    private static Phrase StopText(ChargePlan plan)
    {
        var last = plan.Steps[^1];
        return last.StopGrossKg is { } stop
            ? Phrase.Of($"Close the valve of {last.Container} when the scale shows {Kilograms(stop)}.")
            : Phrase.Of($"Weigh {last.Container} before opening it: its stop is {Kilograms(last.DrawKg)} below that.");
    }

    private static FindingTable PlanTable(ChargePlan plan) => new("Charge plan", ["Container", "Leaves it", "Close at", "Stays inside"],
        [.. plan.Steps.Select(step => ImmutableArray.Create(
            Phrase.Words(step.Container),
            Phrase.Of($"{Kilograms(step.DrawKg)}"),
            step.StopGrossKg is { } stop ? Phrase.Of($"{Kilograms(stop)}{(step.Emptied ? " (or when the flow dies)" : "")}") : Phrase.Words("weigh it first"),
            Phrase.Of($"{Kilograms(step.LeftKg)}")))]);

    private static ImmutableArray<Phrase> Missing(JobRecord record, MassBalance balance, bool begun)
    {
        var missing = new List<Phrase>();
        foreach (var holding in balance.Holdings.Values.Where(holding => !holding.Container.IsRecovery && holding.DrawnKg > 0 && !holding.Weighed))
            missing.Add(Phrase.Of($"a scale reading of {holding.Container.Name} after use: what a can gave is only guessed without"));
        if (begun && record.Journal.OfKind(EntryKinds.Purge).FirstOrDefault() is null && !balance.SystemKnown)
            missing.Add(Phrase.Words("how the air was driven out of the hose"));
        return [.. missing];
    }

    private static List<Stock> Stocks(JobRecord record, MassBalance balance) =>
        [.. balance.Holdings.Values
            .Where(holding => !holding.Container.IsRecovery && holding.Container.Refrigerant == record.Car.Refrigerant && holding.NetKg > 0.005)
            .OrderByDescending(holding => holding.Connected)
            .Select(holding => new Stock(holding.Container.Name, holding.NetKg, holding.NetSigmaKg, holding.GrossKg, balance.InnerVolumeM3(holding.Container),
                holding.Container.Kind == Jobs.Kits.Container.Cylinder || holding.Container.Fields.Text("self-sealing") == "yes"))];

    private static double AirK(JobRecord record) => record.Journal.Last(EntryKinds.Weather)?.Fields.Si("ambient-temperature") ?? 298.15;
}
