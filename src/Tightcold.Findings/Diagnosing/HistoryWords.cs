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
        var what = history.How switch
        {
            FilledHow.ByWeight => "filled by weight",
            FilledHow.ToppedUp => "topped up",
            _ => "filled, not weighed,",
        };
        var name = Phrase.Of($"{what} {Ago(history)}");
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
        var source = filling.Job is { } job ? Phrase.Of($" (job {job})") : Phrase.Words(" (as remembered)");
        var wrong = history.Remembered ? ChargeByHistory.WrongRemembered : ChargeByHistory.WrongWritten;
        return new(
            Phrase.Of($"The car was {Name(history)}{source}, and nobody worked on it since"),
            Phrase.Of(
                $"taken as wrong for {Measure.Ratio(wrong)} of such cars; how many leak and how fast is assumed: an entry “earlier charge” says more"
            )
        );
    }

    private static string Ago(ChargeHistory history) => Months(history.Seconds) + " ago";

    private static string Months(double seconds)
    {
        var months = (int)Math.Round(12 * seconds / LeakForecast.Year);
        return months < 1 ? "less than a month"
            : months == 1 ? "a month"
            : months < 24 ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{months} months")
            : string.Create(
                System.Globalization.CultureInfo.InvariantCulture,
                $"{(int)Math.Round(months / 12.0)} years"
            );
    }
}
