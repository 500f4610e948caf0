using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Procedures.Charging;
using Tightcold.Quantities;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>What was taken out, into which cylinder, and whether the cylinder may hold it.</summary>
internal static class RecoverFinding
{
    private const string Title = "Recovery";

    private static readonly ImmutableArray<Phrase> Law =
    [
        Phrase.Words("Letting refrigerant out on purpose is forbidden in most places, for owners too; who may recover, with what equipment and record, differs: check local rules."),
        Phrase.Words("Only into a refillable recovery cylinder within its test date, never a disposable one; never mix refrigerants."),
    ];

    public static Finding Of(JobRecord record)
    {
        var recoveries = record.Journal.OfKind(EntryKinds.Recovery).ToArray();
        if (recoveries.Length == 0)
        {
            return new(Step.Recover, Title, Certainty.NothingYet, Judgement.Open, Phrase.Words("Nothing recovered yet."))
            {
                Cautions = Law,
                Next = [new(Phrase.Words("Before a joint is opened: have what is left recovered and weighed"), Phrase.Words("how much was in, and it stays lawful"), 35, EntryKinds.Recovery)],
            };
        }
        var balance = MassBalance.Of(record);
        var fluid = FluidOf(record.Car);
        var cautions = new List<Phrase>(Law);
        var missing = new List<Phrase>();
        var estimates = new List<Estimate>();
        var variance = recoveries.Sum(entry => 2 * Math.Pow(MassSigma(entry, "gross-after", record.KitAt(entry.ObservedAt)), 2));
        estimates.Add(Estimate.Normal("recovered", "Recovered", QuantityKind.Mass, balance.RecoveredKg, Math.Sqrt(variance), EstimateOrigin.Measured, 0));
        var overfilled = false;
        foreach (var name in recoveries.Select(entry => entry.Fields.Text("container")!).Distinct(StringComparer.OrdinalIgnoreCase))
        {
            if (!balance.Holdings.TryGetValue(name, out var holding) || holding.Container.WaterCapacity is not { } capacity) continue;
            var most = CylinderFill.MostNetKg(fluid, capacity.Kilograms);
            if (holding.Container.Tare is null) missing.Add(Phrase.Of($"the tare of {name}: without it the fill of the cylinder is not known"));
            else if (holding.NetKg > most)
            {
                overfilled = true;
                cautions.Insert(0, Phrase.Of($"{name} holds {Kilograms(holding.NetKg)}, more than the {Kilograms(most)} it may (80 % full at {At(298.15)}): it can burst when it warms. Move some to another cylinder now."));
            }
            else cautions.Add(Phrase.Of($"{name} holds {Kilograms(holding.NetKg)} of the {Kilograms(most)} it may; {Kilograms(most - holding.NetKg)} of room."));
        }
        if (recoveries[^1].Fields.Si("final-pressure") is null)
            missing.Add(Phrase.Words("the pressure at the end and five minutes later: a rise means there is more to take out of the oil"));
        if (recoveries.All(entry => entry.Fields.Text("certificate") is null))
            missing.Add(Phrase.Words("certificate or licence of who recovered, where the rules ask for a record"));
        var label = record.Car.LabelCharge?.Kilograms;
        return new(Step.Recover, Title, missing.Count == 0 ? Certainty.Stands : Certainty.Weak, overfilled ? Judgement.Bad : Judgement.Good,
            label is { } full
                ? Phrase.Of($"{Kilograms(balance.RecoveredKg)} recovered, {Share(balance.RecoveredKg / full)} of the label charge.")
                : Phrase.Of($"{Kilograms(balance.RecoveredKg)} recovered."))
        {
            Estimates = [.. estimates],
            RestsOn = [.. recoveries.Select(entry => entry.Id)],
            Missing = [.. missing],
            Cautions = [.. cautions],
            Next = [new(Phrase.Words("Open the joints, mend, cap what stays open"), Phrase.Words("nothing more gets wet than must"), 60, EntryKinds.SealChanged)],
        };
    }
}
