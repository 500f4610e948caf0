using Tightcold.Diagnosis.Inference;
using Tightcold.Picture;
using Tightcold.Picture.Machine;
using Tightcold.Quantities;

namespace Tightcold.Findings.Diagnosing;

/// <summary>What was seen and what was told, in words.</summary>
public static class SignTold
{
    /// <summary>“vent colder with the heater hose pinched speaks for warm air from the heater 4 to 1”.</summary>
    public static Phrase Speaks(SignReason reason, Phrase explanation)
    {
        ArgumentNullException.ThrowIfNull(reason);
        var (sign, times) = (SeenSigns.Says(reason.Sign), Times(reason.Weight));
        return reason.Weight > 0
            ? Phrase.Of($"{sign} speaks for {explanation} {times}")
            : Phrase.Of($"{sign} speaks against {explanation} {times}");
    }

    /// <summary>The same in a few words, for a table: “belt slips (9 to 1)”.</summary>
    public static Phrase Brief(SignReason reason)
    {
        ArgumentNullException.ThrowIfNull(reason);
        return Phrase.Of($"{SeenSigns.Says(reason.Sign)} ({Times(reason.Weight)})");
    }

    /// <summary>How much likelier, as a bet: what people look at is never surer than fifty to one.</summary>
    private static Phrase Times(double weight)
    {
        const double Most = 50;
        var times = Math.Exp(Math.Abs(weight));
        return times > Most
            ? Phrase.Words("more than 50 to 1")
            : Phrase.Of($"{Measure.Number(Math.Round(times, times < 3 ? 1 : 0))} to 1");
    }

    /// <summary>Why the readings were taken, and what that makes of them before any of them.</summary>
    public static Assumption Story(Told told, FaultOdds answer)
    {
        ArgumentNullException.ThrowIfNull(told);
        ArgumentNullException.ThrowIfNull(answer);
        var sound = Measure.Ratio(answer.Beliefs.First(one => one.Hypothesis.IsNothingWrong).Hypothesis.Prior);
        if (told.Why == Diagnosis.Priors.ReadingReason.NotSaid)
            return new(
                Phrase.Of(
                    $"Why it is here is not said: nothing wrong is as likely as all faults together, {sound} each"
                ),
                Phrase.Words("one tap under “The story” says it, and moves the odds")
            );
        return told.ByTheScale
            ? new(
                Phrase.Of($"Filled by the scale in this job: nothing wrong is taken at {sound} before any reading"),
                Phrase.Words("trade practice, counted nowhere; if it came back, say so under “The story”")
            )
            : new(
                Phrase.Of(
                    $"{Phrase.Capital(Told.Says(told.Why))}, as told: nothing wrong is taken at {sound} before any "
                        + $"reading"
                ),
                Phrase.Words("trade practice, counted nowhere; a wrong story moves the odds the wrong way")
            );
    }
}
