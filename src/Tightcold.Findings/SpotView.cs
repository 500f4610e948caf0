using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Findings.Steps;

namespace Tightcold.Findings;

/// <summary>How a spot of the circuit stands.</summary>
public enum SpotStanding
{
    Unchecked,

    /// <summary>Checked by a test that could not have seen the leak.</summary>
    Blind,
    Clear,

    /// <summary>A trace, or odds that ask for another look.</summary>
    Suspected,
    Leaking,
    MendedUntested,
    Mended,
}

/// <summary>A spot of the circuit for a map: its standing, its odds and what hindered the last check.</summary>
public sealed record SpotView(string Name, SpotStanding Standing, SpotBelief Belief, Quantities.Phrase Remark)
{
    /// <summary>Odds of a leak from which a spot that nobody called leaking is drawn as suspected.</summary>
    public const double SuspectedFrom = 0.2;

    public static ImmutableArray<SpotView> Of(JobViews views)
    {
        ArgumentNullException.ThrowIfNull(views);
        return Of(views.Record, views.Leaks);
    }

    public static ImmutableArray<SpotView> Of(Jobs.Journals.JobRecord record, LeakView leaks)
    {
        ArgumentNullException.ThrowIfNull(leaks);
        return [.. LeakFinding.States(record).Select(state =>
        {
            var belief = leaks.Belief.Spots.First(spot => spot.Spot.Name == state.Spot);
            return new SpotView(state.Spot, StandingOf(state, belief.Leaking), belief, state.Remark);
        })];
    }

    private static SpotStanding StandingOf(LeakFinding.SpotState state, double odds) => state switch
    {
        { Leaking: true } => SpotStanding.Leaking,
        { MendedUntested: true } => SpotStanding.MendedUntested,
        { Mended: not null } => SpotStanding.Mended,
        { Check: { } check } when check.Fields.Text("outcome") == "trace" => SpotStanding.Suspected,
        { Check: null } when odds < SuspectedFrom => SpotStanding.Unchecked,
        { Blind: true } when odds < SuspectedFrom => SpotStanding.Blind,
        _ => odds >= SuspectedFrom ? SpotStanding.Suspected : SpotStanding.Clear,
    };

    /// <summary>The standing in words.</summary>
    public string Word => Standing switch
    {
        SpotStanding.Unchecked => "not checked",
        SpotStanding.Blind => "checked blind",
        SpotStanding.Clear => "clear",
        SpotStanding.Suspected when Belief.Spot.Tests.IsEmpty => "suspected, not checked",
        SpotStanding.Suspected => "suspected",
        SpotStanding.Leaking => "leaking",
        SpotStanding.MendedUntested => "mended, not checked again",
        _ => "mended and clear",
    };
}
