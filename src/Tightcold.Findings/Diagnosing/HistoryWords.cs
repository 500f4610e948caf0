using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Priors;
using Tightcold.Picture;
using Tightcold.Picture.Machine;
using Tightcold.Quantities;

namespace Tightcold.Findings.Diagnosing;

/// <summary>The last filling in the trade's words.</summary>
public static class HistoryWords
{
    /// <summary>“filled by weight 2 months ago and proven tight”.</summary>
    public static Phrase Name(ChargeHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        var ago = Ago(history.Seconds);
        var name = history.How switch
        {
            FilledHow.ByWeight => Phrase.Of($"filled by weight {ago}"),
            FilledHow.ToppedUp => Phrase.Of($"topped up {ago}"),
            _ => Phrase.Of($"filled, not weighed, {ago}"),
        };
        if (history.Left is { } left && left.Share is < 0.9 or > 1.1)
            name = Phrase.Of($"{name} to {Measure.Ratio(left.Share)} of the label");
        if (history.ProvenTight)
            name = Phrase.Of($"{name} and proven tight");
        return history.LostBefore is { LostKg: > 0.02 and var lost, Seconds: var time }
            ? Phrase.Of($"{name}, after some {Measure.Kilograms(lost)} had gone in {Months(time)}")
            : name;
    }

    /// <summary>“topped up 2 months ago, which would leave 30 to 95 % of the label”.</summary>
    public static Phrase Speaks(ChargeHistory history, Interval expected) =>
        Phrase.Of(
            $"{Name(history)}, which would leave {(Measure.Ratio(expected.Low), Measure.Ratio(expected.High))} of the label"
        );

    public static Assumption Assumption(LastFilling filling)
    {
        ArgumentNullException.ThrowIfNull(filling);
        var history = filling.History;
        var wrong = history.Remembered ? ChargeByHistory.WrongRemembered : ChargeByHistory.WrongWritten;
        return new(
            filling.Job is { } job
                ? Phrase.Of($"The car was {Name(history)} (job {job}), and nobody worked on it since")
                : Phrase.Of($"The car was {Name(history)} (as remembered), and nobody worked on it since"),
            Phrase.Of(
                $"taken as wrong for {Measure.Ratio(wrong)} of such cars; how many leak and how fast is assumed: an entry “earlier charge” says more"
            )
        );
    }

    /// <summary>“2 months ago”.</summary>
    private static Phrase Ago(double seconds)
    {
        var (months, years) = Time(seconds);
        return months < 1 ? Phrase.Words("less than a month ago")
            : months < 24 ? Phrase.Many(months, $"a month ago", $"{months} months ago")
            : Phrase.Many(years, $"{years} year ago", $"{years} years ago");
    }

    /// <summary>“2 months”, as in “had gone in 2 months”.</summary>
    private static Phrase Months(double seconds)
    {
        var (months, years) = Time(seconds);
        return months < 1 ? Phrase.Words("less than a month")
            : months < 24 ? Phrase.Many(months, $"a month", $"{months} months")
            : Phrase.Many(years, $"{years} year", $"{years} years");
    }

    private static (int Months, int Years) Time(double seconds)
    {
        var months = (int)Math.Round(12 * seconds / LeakForecast.Year);
        return (months, (int)Math.Round(months / 12.0));
    }
}
