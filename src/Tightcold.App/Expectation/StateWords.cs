using Tightcold.Loop.Results;
using Tightcold.Quantities;

namespace Tightcold.App.Expectation;

/// <summary>States of the loop in the trade's words.</summary>
internal static class StateWords
{
    public static Phrase Of(LoopResult result)
    {
        List<Phrase> words =
        [
            result.Solver.Reason is { } reason && result.State == LoopState.NotClosed
                ? Phrase.Of($"no steady state: {reason}")
                : Phrase.Words(State(result)),
        ];
        if ((result.Regimes & LoopRegimes.LineFlashing) != 0)
            words.Add(Phrase.Words("bubbles in the liquid line"));
        if ((result.Regimes & LoopRegimes.Vacuum) != 0)
            words.Add(Phrase.Words("low side in vacuum"));
        if ((result.Regimes & LoopRegimes.ThrottleIcing) != 0)
            words.Add(Phrase.Words("comes and goes"));
        return Phrase.Join(", ", words);
    }

    [Said]
    private static string State(LoopResult result) =>
        result.State switch
        {
            LoopState.Steady => "runs steadily",
            LoopState.Starved => "runs steadily, short of liquid",
            LoopState.Flooded => "runs steadily, liquid returns to the compressor",
            LoopState.Icing => "runs with a core below freezing: it will ice over",
            LoopState.Cycling => (result.Regimes & LoopRegimes.FinCycling) != 0
                ? "cycles on the fin thermostat"
                : "cycles on the low-side switch",
            LoopState.HighPressureCutOut => "the high-pressure switch cuts in and out",
            LoopState.LiquidFull => "too full: the high-pressure switch cuts in and out",
            LoopState.Off => "the compressor does not run",
            LoopState.MostlyAir => "mostly air inside: only the parked car is told",
            _ => "no steady state",
        };
}
