using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Procedures.Oil;
using Tightcold.Procedures.Parts;
using Tightcold.Quantities;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>Parts, seals, drier and oil.</summary>
internal static class MendFinding
{
    private const string Title = "Parts, seals and oil";

    /// <summary>A drier in an open circuit takes up the air's water; beyond this it is asked about. Common practice:
    /// fitted last, open under 5 to 10 minutes.</summary>
    private static readonly TimeSpan DrierPatience = TimeSpan.FromMinutes(10);

    public static Finding Of(JobRecord record)
    {
        var work = record.Journal.Standing.Where(entry => entry.Kind is EntryKinds.PartChanged or EntryKinds.SealChanged or EntryKinds.OilMoved or EntryKinds.Opened or EntryKinds.Closed).ToArray();
        var cautions = new List<Phrase>
        {
            Phrase.Words("Loosen a joint slowly with goggles and gloves on: pressure may remain behind it even after recovery."),
            Phrase.Of($"New seals of {SealMaterial.For(record.Car.Refrigerant)}, oiled with the system's own oil; tighten with two spanners to the maker's figure. Caps are seals: every one back on."),
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
        var assumptions = new List<Assumption>();
        var judgement = Judgement.Good;
        Oil(record, work, changed, estimates, missing);
        judgement = Worse(judgement, Drier(record, work, changed, estimates, missing, assumptions));
        judgement = Worse(judgement, OilKind(record, work, cautions, missing));
        foreach (var seal in changed.Where(entry => entry.Kind == EntryKinds.SealChanged && SealMaterial.Fits(record.Car.Refrigerant, entry.Fields.Text("seal") ?? "") == false))
        {
            judgement = Worse(judgement, Judgement.CannotTell);
            cautions.Add(Phrase.Of($"The seal at {seal.Fields.Text("spot") ?? ""} is called “{seal.Fields.Text("seal") ?? ""}”: that rubber swells with {record.Car.Refrigerant} and its oil; {SealMaterial.For(record.Car.Refrigerant)} belongs there."));
        }
        return new(Step.Mend, Title, missing.Count == 0 ? Certainty.Stands : Certainty.Weak, judgement,
            changed.Length == 0 ? Phrase.Words("No part or seal replaced so far.")
                : Phrase.Of($"{LeakFinding.Count(changed.Length, "part or seal", "parts and seals")} replaced: {string.Join("; ", changed.Select(entry => $"{entry.Fields.Text("part") ?? entry.Fields.Text("seal")} at {entry.Fields.Text("spot")}"))}."))
        {
            Estimates = [.. estimates],
            Assumptions = [.. assumptions],
            RestsOn = [.. work.Select(entry => entry.Id)],
            Missing = [.. missing],
            Cautions = [.. cautions],
            Next = [new(Phrase.Words("Pull it down with an absolute vacuum gauge at the far side"), Phrase.Words("whether water is left"), 45, EntryKinds.Pump)],
            Table = Table(changed),
        };
    }

    private static Judgement Worse(Judgement one, Judgement other) => one == Judgement.Bad || other == Judgement.Bad ? Judgement.Bad
        : one == Judgement.CannotTell || other == Judgement.CannotTell ? Judgement.CannotTell : Judgement.Good;

    /// <summary>How tight each changed joint wants to be; common practice, the maker's figure rules.</summary>
    private static FindingTable? Table(Entry[] changed) => changed.Length == 0 ? null : new("Tightening: common practice, the maker's figure rules", ["Spot", "Done", "If the maker gives no figure"],
        [.. changed.Select(entry => ImmutableArray.Create(Phrase.Words(entry.Fields.Text("spot") ?? ""), Phrase.Words(entry.Fields.Text("tightening") ?? "not written down"),
            Phrase.Words(string.Join("; ", Tightening.For(entry.Fields.Text("spot") ?? "").Take(2).Select(Line)))))]);

    private static string Line(Tightening line) => line is { LowNm: { } low, HighNm: { } high }
        ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{line.Joint} {low} to {high} N·m ({low / 1.3558:0.#} to {high / 1.3558:0.#} lbf·ft)")
        : $"{line.Joint}: {line.How}";

    private static Judgement OilKind(JobRecord record, Entry[] work, List<Phrase> cautions, List<Phrase> missing)
    {
        var judgement = Judgement.Good;
        bool? electric = record.Car.Compressor is { } kind ? kind == Car.Electric : null;
        foreach (var oil in work.Where(entry => entry.Kind == EntryKinds.OilMoved && entry.Fields.Text("direction") == "added"))
        {
            var type = oil.Fields.Text("oil-type") ?? "";
            var (fit, why) = OilType.Judge(electric, record.Car.Refrigerant, record.Car.Fields.Text("oil-type"), type);
            if (fit == OilFit.Stop)
            {
                judgement = Judgement.Bad;
                cautions.Insert(0, Phrase.Of($"Stop: {type}: {why}."));
            }
            else if (fit == OilFit.Unsure)
            {
                judgement = Worse(judgement, Judgement.CannotTell);
                missing.Add(Phrase.Of($"whether {type} belongs here: {why}. Needed is {OilType.Needed(electric == true, record.Car.Refrigerant)}"));
            }
            else if (fit == OilFit.AskGrade) missing.Add(Phrase.Of($"the maker's grade of oil: {type} is {why}"));
        }
        return judgement;
    }

    private static void Oil(JobRecord record, Entry[] work, Entry[] changed, List<Estimate> estimates, List<Phrase> missing)
    {
        double Sum(string direction, string? spot = null) => work.Where(entry => entry.Kind == EntryKinds.OilMoved && entry.Fields.Text("direction") == direction
            && (spot is null || entry.Fields.Text("spot") == spot)).Sum(entry => entry.Fields.Si("amount") ?? 0);
        double low = 0, high = 0, cameFilled = 0, drained = Sum("drained");
        foreach (var part in changed.Where(entry => entry.Kind == EntryKinds.PartChanged))
        {
            var spot = part.Fields.Text("spot") ?? "";
            cameFilled += part.Fields.Si("oil-in-new-part") ?? 0;
            if (spot == "compressor body")
            {
                var out_ = Sum("drained", spot);
                if (out_ <= 0)
                {
                    missing.Add(Phrase.Words("how much oil came out of the old compressor: the new one gets that and a little more"));
                    (low, high) = (low + 40e-6, high + 110e-6);
                    continue;
                }
                var due = CompressorOil.Of(out_, part.Fields.Si("oil-in-new-part"));
                drained -= out_;
                (low, high) = (low + due.LowM3, high + due.HighM3);
                if (due.PourOutM3 is > 1e-6 and { } pour)
                    missing.Add(Phrase.Of($"pour about {new Measure(QuantityKind.LiquidVolume, pour)} out of the new compressor before it is fitted: it comes filled for a whole system"));
            }
            else
            {
                var due = OilDue.With(spot);
                (low, high) = (low + due.LowM3, high + due.HighM3);
            }
        }
        var added = Sum("added") + cameFilled;
        if (low + high + drained + added == 0) return;
        drained = Math.Max(0, drained);
        estimates.Add(Estimate.Between("oil-due", "Oil due for parts and drains", QuantityKind.LiquidVolume, drained + (low + high) / 2, drained + low, drained + high, EstimateOrigin.Assumed));
        estimates.Add(Estimate.Between("oil-added", "Oil added", QuantityKind.LiquidVolume, added, added, added, EstimateOrigin.Measured));
        if (added < drained + low - 1e-9)
            missing.Add(Phrase.Of($"oil: {(new Measure(QuantityKind.LiquidVolume, drained + low - added), new Measure(QuantityKind.LiquidVolume, drained + high - added))} still due by what makers publish per part; the vehicle maker's figure rules"));
        if (added > drained + high + 20e-6)
            missing.Add(Phrase.Words("more oil went in than parts and drains explain: too much oil costs cooling"));
        if (record.Car.Fields.Text("oil-type") is null)
            missing.Add(Phrase.Of($"the oil type this compressor needs: {OilType.Needed(record.Car.Compressor == Car.Electric, record.Car.Refrigerant)}"));
    }

    private static Judgement Drier(JobRecord record, Entry[] work, Entry[] changed, List<Estimate> estimates, List<Phrase> missing, List<Assumption> assumptions)
    {
        var opened = work.FirstOrDefault(entry => entry.Kind == EntryKinds.Opened);
        var closed = work.LastOrDefault(entry => entry.Kind == EntryKinds.Closed);
        var renewed = changed.Any(entry => entry.Fields.Text("spot") is "receiver-drier" or "accumulator");
        var compressor = changed.Any(entry => entry.Kind == EntryKinds.PartChanged && entry.Fields.Text("spot") == "compressor body");
        if (compressor && !renewed) missing.Add(Phrase.Words("a new drier: common practice with every compressor, since chips and old oil sit in the old one"));
        if (opened is null) return compressor && !renewed ? Judgement.CannotTell : Judgement.Good;
        if (closed is null || closed.ObservedAt <= opened.ObservedAt)
        {
            missing.Add(Phrase.Words("when the circuit was closed again: until then it takes up water"));
            return Judgement.CannotTell;
        }
        var span = closed.ObservedAt - opened.ObservedAt;
        estimates.Add(Estimate.Between("open-for", "Circuit open to air for", QuantityKind.Duration, span.TotalSeconds, span.TotalSeconds, span.TotalSeconds, EstimateOrigin.Measured));
        var weather = record.WeatherAt(opened.ObservedAt);
        var ends = (int)(opened.Fields.Number("open-ends") ?? 2);
        if (weather?.Fields.Si("ambient-temperature") is { } airK && airK is > 274 and < 323)
        {
            var water = DrierExposure.Of(span.TotalSeconds, airK, weather.Fields.Si("relative-humidity") ?? 0.6, ends, VolumeOf(record.Car).M3);
            estimates.Add(Estimate.Between("water-taken-up", "Water the open circuit took up", QuantityKind.Mass, Math.Sqrt(water.LeastKg * Math.Max(water.MostKg, water.LeastKg)), water.LeastKg, Math.Max(water.MostKg, water.LeastKg), EstimateOrigin.Modelled));
            assumptions.Add(new(Phrase.Of($"{ends} open ends, air drifting through at up to half a litre a minute; modelled, not measured"), Phrase.Words("capped ends take up a tenth of that or less; an old drier may have been full before")));
            if (!renewed && water.MayBeSpent)
            {
                missing.Add(Phrase.Of($"a new drier: the circuit took up to {Kilograms(water.MostKg)} of water, and a small drier holds about {Kilograms(0.004)}"));
                return Judgement.CannotTell;
            }
        }
        if (!renewed && span > DrierPatience)
        {
            missing.Add(Phrase.Words("a new drier: the circuit was open longer than common practice allows a drier (10 minutes)"));
            return Judgement.CannotTell;
        }
        return compressor && !renewed ? Judgement.CannotTell : Judgement.Good;
    }
}
