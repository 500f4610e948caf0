using System.Collections.Immutable;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using static Tightcold.Findings.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>Which spots were checked, by which test, with which outcome, and what could not have been seen.</summary>
internal static class LeakFinding
{
    private const string Title = "Leak search";

    /// <summary>Below this a detector or soap has little to find; SAE J1628 asks for 340 kPa gauge (50 psig) engine
    /// off; from memory, page not seen.</summary>
    public const double LeastTestPa = 340e3;

    /// <summary>Where leaks are found most often, best first; common practice.</summary>
    private static readonly string[] LikelyFirst =
        ["condenser", "compressor shaft seal", "low-side service valve", "high-side service valve", "evaporator", "discharge hose", "suction hose"];

    internal sealed record SpotState(string Spot, Entry? Check, Entry? Leak, Entry? Mended, Entry? Retest, Phrase Remark, bool Blind)
    {
        public bool Leaking => Leak is not null && Mended is null;
        public bool MendedUntested => Leak is not null && Mended is not null && Retest is null;
        public bool Clear => !Leaking && !MendedUntested && Check is not null && !Blind;
    }

    public static ImmutableArray<SpotState> States(JobRecord record) =>
        [.. CircuitMap.Spots(record.Car).Select(spot => StateOf(record, spot))];

    private static SpotState StateOf(JobRecord record, string spot)
    {
        bool Here(Entry entry) => string.Equals(entry.Fields.Text("spot"), spot, StringComparison.OrdinalIgnoreCase);
        var checks = record.Journal.OfKind(EntryKinds.LeakCheck).Where(Here).ToArray();
        var leak = checks.LastOrDefault(entry => entry.Fields.Text("outcome") is "clear leak");
        var mended = leak is null ? null : record.Journal.Standing.LastOrDefault(entry =>
            entry.Kind is EntryKinds.PartChanged or EntryKinds.SealChanged && Here(entry) && entry.ObservedAt >= leak.ObservedAt);
        var retest = mended is null ? null : checks.LastOrDefault(entry => entry.ObservedAt > mended.ObservedAt && entry.Fields.Text("outcome") == "nothing");
        var last = checks.LastOrDefault();
        var (remark, blind) = last is null ? (Phrase.Empty, false) : Blindness(record, last);
        return new(spot, last, leak, mended, blind ? null : retest, remark, blind);
    }

    /// <summary>A “nothing” from a test that could not have seen the leak is no evidence.</summary>
    private static (Phrase Remark, bool Blind) Blindness(JobRecord record, Entry check)
    {
        if (check.Fields.Text("outcome") != "nothing") return (Phrase.Empty, false);
        var test = check.Fields.Text("test");
        if (test is "electronic detector" or "soap bubbles" or "cover and wait")
        {
            if (check.Fields.Si("system-pressure") is not { } pressure)
                return (Phrase.Words("pressure then not written down: may have been blind"), false);
            if (pressure < LeastTestPa)
                return (Phrase.Of($"blind: only {Gauge(pressure)} inside, {Gauge(LeastTestPa)} needed"), true);
        }
        if (test == "UV lamp" && record.Car.Dyed == false)
            return (Phrase.Words("blind: this car never had dye"), true);
        if (test == "electronic detector" && check.Fields.Text("wind") == "windy")
            return (Phrase.Words("blind: wind carries the trace away"), true);
        return (Phrase.Empty, false);
    }

    public static Finding Of(JobRecord record)
    {
        var states = States(record);
        var leaking = states.Where(state => state.Leaking).ToArray();
        var untested = states.Where(state => state.MendedUntested).ToArray();
        var traces = states.Where(state => state.Leak is null && state.Check?.Fields.Text("outcome") == "trace").ToArray();
        var open = states.Where(state => state.Check is null || (state.Blind && !state.Leaking)).ToArray();
        var checkedAny = states.Any(state => state.Check is not null);
        var (judgement, verdict) = Judge(states, leaking, untested, traces, open, checkedAny);
        return new(Step.LeakSearch, Title, !checkedAny ? Certainty.NothingYet : open.Length == 0 ? Certainty.Stands : Certainty.Weak, judgement, verdict)
        {
            Why = open.Length > 0 && (leaking.Length > 0 || checkedAny)
                ? Phrase.Of($"One found leak does not mean the only one: {Count(open.Length, "spot has", "spots have")} not been checked by a test that could see.") : Phrase.Empty,
            RestsOn = [.. states.SelectMany(state => new[] { state.Leak, state.Mended, state.Retest, state.Check }).OfType<Entry>().Select(entry => entry.Id).Distinct()],
            Missing = open.Length == 0 || !checkedAny ? [] : [Phrase.Of($"unchecked: {string.Join(", ", open.Select(state => state.Spot))}")],
            Cautions =
            [
                Phrase.Words("Never pressurise with oxygen or shop air: oil and oxygen explode. Dry nitrogen through a regulator only."),
                Phrase.Words("Engine off and cold for hands and lamp near belts and fans; no flame near refrigerant."),
            ],
            Next = Next(record, leaking, untested, traces, open),
            Table = checkedAny ? Table(states) : null,
        };
    }

    private static (Judgement, Phrase) Judge(ImmutableArray<SpotState> states, SpotState[] leaking, SpotState[] untested, SpotState[] traces, SpotState[] open, bool checkedAny)
    {
        if (!checkedAny) return (Judgement.Open, Phrase.Of($"Not begun: {states.Length} spots to check on this car."));
        if (leaking.Length > 0) return (Judgement.Bad, Phrase.Of($"{Count(leaking.Length, "leak", "leaks")} found and not mended: {Names(leaking)}."));
        if (untested.Length > 0) return (Judgement.CannotTell, Phrase.Of($"Mended, not yet checked again: {Names(untested)}."));
        if (traces.Length > 0) return (Judgement.CannotTell, Phrase.Of($"A trace without a clear leak at {Names(traces)}: clean it and check again."));
        if (open.Length > 0) return (Judgement.CannotTell, Phrase.Of($"No open leak known; {open.Length} of {states.Length} spots not checked."));
        var mended = states.Count(state => state.Mended is not null);
        return (Judgement.Good, mended == 0 ? Phrase.Of($"All {states.Length} spots checked, nothing found.")
            : Phrase.Of($"All {states.Length} spots checked; {Count(mended, "leak", "leaks")} found, mended and clear on the second check."));
    }

    private static ImmutableArray<NextAction> Next(JobRecord record, SpotState[] leaking, SpotState[] untested, SpotState[] traces, SpotState[] open)
    {
        var actions = new List<NextAction>();
        if (open.Length > 0)
        {
            var first = open.OrderBy(state => Array.IndexOf(LikelyFirst, state.Spot) is var rank && rank < 0 ? 99 : rank).Take(3).ToArray();
            var test = record.Car.Dyed == true ? "UV lamp in the dark, then the detector" : "detector below each joint, slowly";
            actions.Add(new(Phrase.Of($"Check next: {Names(first)} ({test})"), Phrase.Words("the second leak, which makes the repair come back"), 5 * first.Length, EntryKinds.LeakCheck));
        }
        if (leaking.Length > 0)
            actions.Add(new(Phrase.Of($"Mend {Names(leaking)} after recovery"), Phrase.Words("nothing more leaks there, once checked again"), 40, EntryKinds.SealChanged));
        if (untested.Length + traces.Length > 0)
            actions.Add(new(Phrase.Of($"Clean and check again: {Names([.. untested, .. traces])}"), Phrase.Words("whether the repair holds"), 5, EntryKinds.LeakCheck));
        return [.. actions.Take(3)];
    }

    private static FindingTable Table(ImmutableArray<SpotState> states) => new("Spots of the circuit", ["Spot", "State", "Test", "Remark"],
        [.. states.Select(state => ImmutableArray.Create(
            Phrase.Words(state.Spot),
            Phrase.Words(state.Leaking ? "leaking" : state.MendedUntested ? "mended, not checked again" : state.Mended is not null ? "mended and clear"
                : state.Check is null ? "not checked" : state.Blind ? "checked blind" : state.Check.Fields.Text("outcome") == "trace" ? "trace" : "nothing found"),
            Phrase.Words(state.Check?.Fields.Text("test") ?? ""),
            state.Remark))]);

    private static string Names(IEnumerable<SpotState> states) => string.Join(", ", states.Select(state => state.Spot));

    internal static string Count(int count, string one, string many) => count == 1 ? $"1 {one}" : $"{count.ToString(System.Globalization.CultureInfo.InvariantCulture)} {many}";
}
