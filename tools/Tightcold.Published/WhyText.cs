using System.Globalization;
using System.Text;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Published;

/// <summary>One row with all that speaks for each of its likeliest explanations.</summary>
internal static class WhyText
{
    private const int Most = 8;

    public static string Of(PublishedRow row)
    {
        var answer = Diagnoser.Diagnose(Question.Of(row, ReadingReason.NotSaid), Effort.Full, 1);
        var text = new StringBuilder();
        void Add(FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
        foreach (var belief in answer.Beliefs.Take(Most))
        {
            Add($"{belief.Hypothesis.Key} {belief.Odds:0.000} ± {belief.OddsError:0.000} ({belief.Effective:0})");
            Add($"    charge {belief.ChargeShare.Low:0.00}–{belief.ChargeShare.High:0.00} of the label");
            foreach (var how in belief.Severities)
                Add($"    severity {how.Low:G3}–{how.High:G3}");
            foreach (var reason in belief.Reasons)
            {
                var (expected, healthy) = (reason.Expected, reason.Healthy);
                Add($"    {reason.Channel}{reason.Seen} {reason.Weight:+0.0;-0.0}: {reason.Observed:G4}");
                Add($"        if so {expected.Low:G4}–{expected.High:G4}, sound {healthy.Low:G4}–{healthy.High:G4}");
            }

            foreach (var sign in belief.SignReasons)
                Add($"    {sign.Sign} {sign.Weight:+0.0;-0.0}");
        }

        Add($"fit {answer.Fit:0.00}, {answer.Solves} solves");
        Add($"charge {answer.ChargeKg.Low:0.00}–{answer.ChargeKg.High:0.00} kg");
        if (answer.DoesNotFit is { } worst)
            Add($"does not fit: {worst.Channel} {worst.Observed:G4}");
        return text.ToString();
    }
}
