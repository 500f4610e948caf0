using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture;
using Tightcold.Picture.Leaks;
using Tightcold.Picture.Tight;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>Which spots were checked, by which test, with which outcome, and what could not have been seen.</summary>
internal static class LeakFinding
{
    private const string Title = "Leak search";

    /// <summary>Odds that another leak remains, up to which a finished search is called good by itself.</summary>
    private const double LittleRemains = 0.25;

    public static Finding Of(JobPicture picture)
    {
        var view = picture.Leaks;
        var states = view.States;
        var open = states.Where(state => state.Check is null || (state.Blind && !state.Leaking)).ToArray();
        var checkedAny = states.Any(state => state.Check is not null);
        var (judgement, verdict) = Judge(states, open, checkedAny);
        // A circuit proven tight has been searched enough: what may remain is too small to matter in the time asked
        // for.
        if (
            judgement == Judgement.Good
            && picture.Tight.Outcome != TightOutcome.Proven
            && view.Belief.AnotherRemains > LittleRemains
        )
            judgement = Judgement.CannotTell;
        var known = checkedAny || view.Losses.LostKg is not null;
        return new(
            Step.LeakSearch,
            Title,
            !checkedAny ? Certainty.NothingYet
                : open.Length == 0 ? Certainty.Stands
                : Certainty.Weak,
            judgement,
            verdict
        )
        {
            Why = checkedAny ? LeakWords.Why(view, picture.Tight, open.Length) : Phrase.Empty,
            Estimates = known ? LeakWords.Estimates(picture) : [],
            RestsOn =
            [
                .. states
                    .SelectMany(state => state.Entries)
                    .Select(entry => entry.Id)
                    .Concat(view.Losses.Entries)
                    .Distinct(),
            ],
            Assumptions = known ? LeakWords.Assumptions(picture) : [],
            Missing = open.Length == 0 || !checkedAny ? [] : [Phrase.Of($"unchecked: {Names(open)}")],
            Hazards =
            [
                StepCautions.MovingParts with
                {
                    Says = Phrase.Words("Engine off and cold for hands and lamp near belts and fans."),
                },
            ],
            Next = Next(picture, states),
            Table = checkedAny ? Table(view) : null,
        };
    }

    private static (Judgement, Phrase) Judge(ImmutableArray<SpotState> states, SpotState[] open, bool checkedAny)
    {
        if (!checkedAny)
            return (
                Judgement.Open,
                Phrase.Many(
                    states.Length,
                    $"Not begun: {states.Length} spot to check on this car.",
                    $"Not begun: {states.Length} spots to check on this car."
                )
            );
        var leaking = states.Where(state => state.Leaking).ToArray();
        var traces = states.Where(state => state.Trace).ToArray();
        var suspects =
            traces.Length == 0
                ? Phrase.Empty
                : Phrase.Many(
                    traces.Length,
                    $"{traces.Length} suspect: {Names(traces)}.",
                    $"{traces.Length} suspects: {Names(traces)}."
                );
        if (leaking.Length > 0)
            return (
                Judgement.Bad,
                Phrase
                    .Many(
                        leaking.Length,
                        $"{leaking.Length} leak found and not mended: {Names(leaking)}.",
                        $"{leaking.Length} leaks found and not mended: {Names(leaking)}."
                    )
                    .Then(suspects)
            );
        if (states.Where(state => state.MendedUntested).ToArray() is { Length: > 0 } untested)
            return (
                Judgement.CannotTell,
                Phrase.Of($"Mended, not yet checked again: {Names(untested)}.").Then(suspects)
            );
        if (traces.Length > 0)
            return (
                Judgement.CannotTell,
                Phrase.Of($"A trace without a clear leak at {Names(traces)}: clean it and check again.")
            );
        if (open.Length > 0)
            return (
                Judgement.CannotTell,
                Phrase.Of($"No open leak known; {open.Length} of {states.Length} spots not checked.")
            );
        var mended = states.Count(state => state.Mended is not null);
        return (
            Judgement.Good,
            mended == 0
                ? Phrase.Of($"All {states.Length} spots checked, nothing found.")
                : Phrase.Many(
                    mended,
                    $"All {states.Length} spots checked; {mended} leak found, mended and clear on the second check.",
                    $"All {states.Length} spots checked; {mended} leaks found, mended and clear on the second check."
                )
        );
    }

    private static ImmutableArray<NextAction> Next(JobPicture picture, ImmutableArray<SpotState> states)
    {
        var view = picture.Leaks;
        var leaking = states.Where(state => state.Leaking).ToArray();
        var again = states.Where(state => state.MendedUntested || state.Trace).ToArray();
        var actions = new List<NextAction>();
        if (leaking.Length > 0)
        {
            actions.Add(
                new(
                    picture.Timeline.Now.HoldsRefrigerant
                        ? Phrase.Of($"Mend {Names(leaking)} after recovery")
                        : Phrase.Of($"Mend {Names(leaking)}"),
                    Phrase.Words("nothing more leaks there, once checked again"),
                    40,
                    EntryKinds.SealChanged
                )
            );
        }
        if (again.Length > 0)
            actions.Add(
                new(
                    Phrase.Of($"Clean and check again: {Names(again)}"),
                    Phrase.Words("whether the repair holds"),
                    5,
                    EntryKinds.LeakCheck
                )
            );
        if (view.Belief.AnotherRemains > 0.05)
            actions.InsertRange(leaking.Length > 0 && actions.Count > 1 ? 1 : 0, LeakWords.Checks(view));
        return [.. actions.Take(3)];
    }

    private static FindingTable Table(LeakView view) =>
        new(
            "Spots of the circuit",
            ["Spot", "State", "Test", "Remark", "Leaks now", "Rate if so"],
            [
                .. SpotView
                    .Of(view)
                    .Select(spot =>
                        ImmutableArray.Create(
                            SpotWords.Name(spot.Name),
                            SpotWords.Of(spot),
                            spot.State.Check?.Entry.Says(FieldNames.Test) ?? Phrase.Empty,
                            LeakWords.Remark(SpotWords.Remark(spot.State), spot.Belief),
                            Phrase.Of($"{Odds(spot.Belief.Leaking)}"),
                            spot.Belief.Leaking > 0.02 || spot.Belief.Leaked > 0.5
                                ? Phrase.Of(
                                    $"{(GramsPerYear(spot.Belief.RateKgPerS.P05), GramsPerYear(spot.Belief.RateKgPerS.P95))}"
                                )
                                : Phrase.Empty
                        )
                    ),
            ]
        );

    private static Phrase Names(IEnumerable<SpotState> states) => SpotWords.Names(states.Select(state => state.Spot));
}
