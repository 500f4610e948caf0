using Tightcold.Diagnosis.Leaks;
using Tightcold.Picture.Leaks;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>How a spot stands, in words.</summary>
public static class SpotWords
{
    /// <summary>SAE J1628 asks for 340 kPa gauge (50 psig) engine off before a detector is trusted; from memory, page
    /// not seen. What a test could see at less is computed; this is what a person is told to bring it to.</summary>
    private const double LeastTestPa = 340e3;

    /// <summary>Names of spots in a row: a usual one is a message, one that a person added is said as it is.</summary>
    public static Phrase Names(IEnumerable<string> spots) =>
        Phrase.Join(", ", spots.Select(spot => Phrase.Words(spot, null)));

    /// <inheritdoc cref="Names"/>
    public static Phrase Name(string spot) => Names([spot]);

    public static Phrase Of(SpotView spot)
    {
        ArgumentNullException.ThrowIfNull(spot);
        return Phrase.Words(Word(spot), "spot");
    }

    [Said("spot")]
    private static string Word(SpotView spot) =>
        spot.Standing switch
        {
            SpotStanding.Unchecked => "not checked",
            SpotStanding.Blind => "checked blind",
            SpotStanding.Clear => "clear",
            SpotStanding.Suspected when spot.State.Check is null => "suspected, not checked",
            SpotStanding.Suspected => "suspected",
            SpotStanding.Leaking => "leaking",
            SpotStanding.MendedUntested => "mended, not checked again",
            _ => "mended and clear",
        };

    /// <summary>A “nothing” from a test that could not have seen the leak is no evidence.</summary>
    public static Phrase Remark(SpotState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return state.Blindness switch
        {
            LeakBlindness.Pressure => Phrase.Of(
                $"blind: only {state.Check!.Shown ?? Gauge(0)} inside, {Gauge(LeastTestPa)} needed"
            ),
            LeakBlindness.NeverDyed => Phrase.Words("blind: this car never had dye"),
            LeakBlindness.Wind => Phrase.Words("blind: wind carries the trace away"),
            LeakBlindness.TooShort => Phrase.Words("blind: too short a look"),
            LeakBlindness.OutOfReach => Phrase.Words("blind: this test does not reach there"),
            LeakBlindness.TooCoarse => Phrase.Of(
                $"blind: misses a leak of {GramsPerYear(LeakDetection.WorthFinding)} more often than it shows it"
            ),
            _ when state.Check is { Outcome: LeakTestOutcome.Nothing, PressureTaken: true, Shown: { } read } =>
                Phrase.Of($"at {read}, as last read"),
            _ when state.PressureUnknown => Phrase.Words("pressure then not written down: may have been blind"),
            _ => Phrase.Empty,
        };
    }
}
