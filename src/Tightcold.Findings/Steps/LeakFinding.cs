using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
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

    /// <summary>SAE J1628 asks for 340 kPa gauge (50 psig) engine off before a detector is trusted; from memory, page
    /// not seen. What a test could see at less is computed; this is what a person is told to bring it to.</summary>
    public const double LeastTestPa = 340e3;

    /// <summary>Odds that another leak remains, up to which a finished search is called good.</summary>
    private const double LittleRemains = 0.25;

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
        var blindness = LeakDetection.Blindness(LeakView.TestOf(record, check), LeakComponents.FromName(check.Fields.Text("spot") ?? ""), LeakView.Setting(record));
        var large = GramsPerYear(LeakDetection.WorthFinding);
        return blindness switch
        {
            LeakBlindness.Pressure => (Phrase.Of($"blind: only {Gauge(check.Fields.Si("system-pressure") ?? 0)} inside, {Gauge(LeastTestPa)} needed"), true),
            LeakBlindness.NeverDyed => (Phrase.Words("blind: this car never had dye"), true),
            LeakBlindness.Wind => (Phrase.Words("blind: wind carries the trace away"), true),
            LeakBlindness.TooShort => (Phrase.Words("blind: too short a look"), true),
            LeakBlindness.OutOfReach => (Phrase.Words("blind: this test does not reach there"), true),
            LeakBlindness.TooCoarse => (Phrase.Of($"blind: misses a leak of {large} more often than it shows it"), true),
            _ when check.Fields.Si("system-pressure") is null && check.Fields.Text("test") is not ("UV lamp" or "oil trace" or "dye at the drain")
                => (Phrase.Words("pressure then not written down: may have been blind"), false),
            _ => (Phrase.Empty, false),
        };
    }

    /// <param name="view">The belief, which may know earlier jobs of the car.</param>
    public static Finding Of(JobRecord record, LeakView view)
    {
        var states = States(record);
        var leaking = states.Where(state => state.Leaking).ToArray();
        var untested = states.Where(state => state.MendedUntested).ToArray();
        var traces = states.Where(state => state.Leak is null && state.Check?.Fields.Text("outcome") == "trace").ToArray();
        var open = states.Where(state => state.Check is null || (state.Blind && !state.Leaking)).ToArray();
        var checkedAny = states.Any(state => state.Check is not null);
        var (judgement, verdict) = Judge(states, leaking, untested, traces, open, checkedAny);
        var remains = view.Belief.AnotherRemains;
        if (judgement == Judgement.Good && remains > LittleRemains) judgement = Judgement.CannotTell;
        return new(Step.LeakSearch, Title, !checkedAny ? Certainty.NothingYet : open.Length == 0 ? Certainty.Stands : Certainty.Weak, judgement, verdict)
        {
            Why = checkedAny ? LeakWords.Why(view, open.Length) : Phrase.Empty,
            Estimates = checkedAny || view.Losses.LostKg is not null ? LeakWords.Estimates(record, view) : [],
            RestsOn = [.. states.SelectMany(state => new[] { state.Leak, state.Mended, state.Retest, state.Check }).OfType<Entry>().Select(entry => entry.Id).Concat(view.Losses.Entries).Distinct()],
            Assumptions = checkedAny || view.Losses.LostKg is not null ? LeakWords.Assumptions(view) : [],
            Missing = open.Length == 0 || !checkedAny ? [] : [Phrase.Of($"unchecked: {string.Join(", ", open.Select(state => state.Spot))}")],
            Cautions =
            [
                Phrase.Words("Never pressurise with oxygen or shop air: oil and oxygen explode. Dry nitrogen through a regulator only."),
                Phrase.Words("Engine off and cold for hands and lamp near belts and fans; no flame near refrigerant."),
            ],
            Next = Next(view, leaking, untested, traces),
            Table = checkedAny ? Table(states, view) : null,
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

    private static ImmutableArray<NextAction> Next(LeakView view, SpotState[] leaking, SpotState[] untested, SpotState[] traces)
    {
        var actions = new List<NextAction>();
        if (leaking.Length > 0)
            actions.Add(new(Phrase.Of($"Mend {Names(leaking)} after recovery"), Phrase.Words("nothing more leaks there, once checked again"), 40, EntryKinds.SealChanged));
        if (untested.Length + traces.Length > 0)
            actions.Add(new(Phrase.Of($"Clean and check again: {Names([.. untested, .. traces])}"), Phrase.Words("whether the repair holds"), 5, EntryKinds.LeakCheck));
        if (view.Belief.AnotherRemains > 0.05) actions.InsertRange(leaking.Length > 0 && actions.Count > 1 ? 1 : 0, LeakWords.Checks(view));
        return [.. actions.Take(3)];
    }

    private static FindingTable Table(ImmutableArray<SpotState> states, LeakView view) => new("Spots of the circuit", ["Spot", "State", "Test", "Remark", "Leaks now", "Rate if so"],
        [.. states.Select(state =>
        {
            var belief = view.Belief.Spots.First(spot => spot.Spot.Name == state.Spot);
            return ImmutableArray.Create(
                Phrase.Words(state.Spot),
                Phrase.Words(state.Leaking ? "leaking" : state.MendedUntested ? "mended, not checked again" : state.Mended is not null ? "mended and clear"
                    : state.Check is null ? "not checked" : state.Blind ? "checked blind" : state.Check.Fields.Text("outcome") == "trace" ? "trace" : "nothing found"),
                Phrase.Words(state.Check?.Fields.Text("test") ?? ""),
                LeakWords.Remark(state.Remark, belief),
                Phrase.Of($"{Odds(belief.Leaking)}"),
                belief.Leaking > 0.02 || belief.Leaked > 0.5 ? Phrase.Of($"{(GramsPerYear(belief.RateKgPerS.P05), GramsPerYear(belief.RateKgPerS.P95))}") : Phrase.Empty);
        })]);

    private static string Names(IEnumerable<SpotState> states) => string.Join(", ", states.Select(state => state.Spot));

    internal static string Count(int count, string one, string many) => count == 1 ? $"1 {one}" : $"{count.ToString(System.Globalization.CultureInfo.InvariantCulture)} {many}";
}
