using System.Collections.Immutable;
using Tightcold.Diagnosis.Tightness;
using Tightcold.Quantities;

namespace Tightcold.Picture.Leaks;

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

/// <summary>A spot of the circuit for a map: its standing and its odds.</summary>
public sealed record SpotView(SpotState State, SpotStanding Standing, SpotTightness Belief)
{
    /// <summary>Odds of a leak from which a spot that nobody called leaking is drawn as suspected.</summary>
    public const double SuspectedFrom = 0.2;

    [Said]
    public string Name => State.Spot;

    public static ImmutableArray<SpotView> Of(LeakView leaks)
    {
        ArgumentNullException.ThrowIfNull(leaks);
        return
        [
            .. leaks.States.Select(state =>
            {
                var belief = leaks.Belief.Spots.First(spot => spot.Spot.Name == state.Spot);
                return new SpotView(state, StandingOf(state, belief.Leaking), belief);
            }),
        ];
    }

    private static SpotStanding StandingOf(SpotState state, double odds) =>
        state switch
        {
            { Leaking: true } => SpotStanding.Leaking,
            { MendedUntested: true } => SpotStanding.MendedUntested,
            { Mended: not null } => SpotStanding.Mended,
            { Trace: true } => SpotStanding.Suspected,
            { Check: null } when odds < SuspectedFrom => SpotStanding.Unchecked,
            { Blind: true } when odds < SuspectedFrom => SpotStanding.Blind,
            _ => odds >= SuspectedFrom ? SpotStanding.Suspected : SpotStanding.Clear,
        };
}
