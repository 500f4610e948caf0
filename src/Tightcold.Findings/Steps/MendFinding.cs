using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Findings.Steps;

/// <summary>Parts, seals, drier and oil.</summary>
internal static class MendFinding
{
    private const string Title = "Parts, seals and oil";

    /// <summary>A drier in an open circuit takes up the air's water; beyond this it is replaced. Common practice:
    /// fitted last, open under 5 to 10 minutes.</summary>
    private static readonly TimeSpan DrierPatience = TimeSpan.FromMinutes(10);

    public static Finding Of(JobRecord record)
    {
        var work = record.Journal.Standing.Where(entry => entry.Kind is EntryKinds.PartChanged or EntryKinds.SealChanged or EntryKinds.OilMoved or EntryKinds.Opened or EntryKinds.Closed).ToArray();
        var cautions = new List<Phrase>
        {
            Phrase.Words("Loosen a joint slowly with goggles and gloves on: pressure may remain behind it even after recovery."),
            Phrase.Words("New seals of the right rubber for this refrigerant, oiled with the system's own oil; tighten with two spanners to the maker's figure."),
        };
        if (record.Car.Compressor == Car.Electric)
            cautions.Insert(0, Phrase.Words("High-voltage compressor: isolate, wait, prove dead before touching; work for licensed hands. Only its own non-conductive oil, no dye unless the maker approves."));
        if (work.Length == 0)
        {
            return new(Step.Mend, Title, Certainty.NothingYet, Judgement.Open, Phrase.Words("Nothing replaced yet."))
            {
                Cautions = [.. cautions],
                Next = [new(Phrase.Words("Write down each part and seal as it goes in"), Phrase.Words("the oil to add and what to check again"), 2, EntryKinds.PartChanged)],
            };
        }
        var changed = work.Where(entry => entry.Kind is EntryKinds.PartChanged or EntryKinds.SealChanged).ToArray();
        var estimates = new List<Estimate>();
        var missing = new List<Phrase>();
        var judgement = Judgement.Good;
        Oil(record, work, changed, estimates, missing);
        var openFor = OpenFor(work);
        var drier = changed.Any(entry => entry.Fields.Text("spot") is "receiver-drier" or "accumulator");
        if (openFor is { } span)
        {
            estimates.Add(Estimate.Between("open-for", "Circuit open to air for", QuantityKind.Duration, span.TotalSeconds, span.TotalSeconds, span.TotalSeconds, EstimateOrigin.Measured));
            if (!drier && span > DrierPatience)
            {
                missing.Add(Phrase.Words("a new drier: the circuit was open longer than a drier stays dry"));
                judgement = Judgement.CannotTell;
            }
        }
        else if (work.Any(entry => entry.Kind == EntryKinds.Opened))
        {
            missing.Add(Phrase.Words("when the circuit was closed again: until then it takes up water"));
            judgement = Judgement.CannotTell;
        }
        if (record.Car.Compressor == Car.Electric && work.FirstOrDefault(IsWrongOil) is { } wrong)
        {
            judgement = Judgement.Bad;
            cautions.Insert(0, Phrase.Of($"Stop: {wrong.Fields.Text("oil-type") ?? ""} in an electric compressor may put the high voltage on the body. Only the maker's non-conductive oil."));
        }
        return new(Step.Mend, Title, missing.Count == 0 ? Certainty.Stands : Certainty.Weak, judgement,
            changed.Length == 0 ? Phrase.Words("No part or seal replaced so far.")
                : Phrase.Of($"{LeakFinding.Count(changed.Length, "part or seal", "parts and seals")} replaced: {string.Join("; ", changed.Select(entry => $"{entry.Fields.Text("part") ?? entry.Fields.Text("seal")} at {entry.Fields.Text("spot")}"))}."))
        {
            Estimates = [.. estimates],
            RestsOn = [.. work.Select(entry => entry.Id)],
            Missing = [.. missing],
            Cautions = [.. cautions],
            Next = [new(Phrase.Words("Pull it down with an absolute vacuum gauge at the far side"), Phrase.Words("whether water is left"), 45, EntryKinds.Pump)],
        };
    }

    private static bool IsWrongOil(Entry entry) =>
        entry.Kind == EntryKinds.OilMoved && entry.Fields.Text("direction") == "added"
        && !(entry.Fields.Text("oil-type") ?? "").Contains("POE", StringComparison.OrdinalIgnoreCase)
        && !(entry.Fields.Text("oil-type") ?? "").Contains("non-conductive", StringComparison.OrdinalIgnoreCase);

    /// <summary>Oil that went with a part: published per-part additions of several makers, low to high, mL.</summary>
    private static (double Low, double High) OilWithPart(string spot) => spot switch
    {
        "evaporator" => (35, 90),
        "condenser" => (20, 30),
        "accumulator" => (30, 105),
        "receiver-drier" => (10, 30),
        "compressor body" => (40, 110),
        _ when spot.Contains("hose", StringComparison.Ordinal) || spot.EndsWith("line", StringComparison.Ordinal) => (0, 15),
        _ => (0, 0),
    };

    private static void Oil(JobRecord record, Entry[] work, Entry[] changed, List<Estimate> estimates, List<Phrase> missing)
    {
        double Sum(string direction) => work.Where(entry => entry.Kind == EntryKinds.OilMoved && entry.Fields.Text("direction") == direction).Sum(entry => entry.Fields.Si("amount") ?? 0);
        double low = 0, high = 0;
        foreach (var part in changed.Where(entry => entry.Kind == EntryKinds.PartChanged))
        {
            var (from, to) = OilWithPart(part.Fields.Text("spot") ?? "");
            low += from * 1e-6;
            high += to * 1e-6;
        }
        double drained = Sum("drained"), added = Sum("added");
        if (low + high + drained + added == 0) return;
        estimates.Add(Estimate.Between("oil-due", "Oil due for parts and drains", QuantityKind.LiquidVolume, drained + (low + high) / 2, drained + low, drained + high, EstimateOrigin.Assumed));
        estimates.Add(Estimate.Between("oil-added", "Oil added", QuantityKind.LiquidVolume, added, added, added, EstimateOrigin.Measured));
        if (added < drained + low - 1e-9)
            missing.Add(Phrase.Of($"oil: {(new Measure(QuantityKind.LiquidVolume, drained + low - added), new Measure(QuantityKind.LiquidVolume, drained + high - added))} still due by what makers publish per part; the vehicle maker's figure rules"));
        if (added > drained + high + 20e-6)
            missing.Add(Phrase.Words("more oil went in than parts and drains explain: too much oil costs cooling"));
        if (record.Car.Fields.Text("oil-type") is null)
            missing.Add(Phrase.Words("the oil type this compressor needs"));
    }

    private static TimeSpan? OpenFor(Entry[] work)
    {
        var opened = work.FirstOrDefault(entry => entry.Kind == EntryKinds.Opened);
        var closed = work.LastOrDefault(entry => entry.Kind == EntryKinds.Closed);
        return opened is not null && closed is not null && closed.ObservedAt > opened.ObservedAt ? closed.ObservedAt - opened.ObservedAt : null;
    }
}
