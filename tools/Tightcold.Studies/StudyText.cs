using System.Globalization;
using System.Text;
using Tightcold.Studies.Holds;
using Tightcold.Studies.Leaks;

namespace Tightcold.Studies;

/// <summary>What the studies print.</summary>
internal static class StudyText
{
    public static string Of(SearchStudy study)
    {
        var text = new StringBuilder();
        void Line(FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Line($"{study.Systems} invented cars, 0 to 3 leaks each; simulated, not measured");
        Bins(text, study.SpotBins);
        Line($"odds of a spot, mean error of calibration: {study.SpotError:0.0000}");
        Line($"true rate inside its 90 % interval: {study.RateCoverage:0.000}");
        Line(
            $"another leak remains when the advised search ends: said {study.SaidRemains:0.000}, was so {
            study.WasRemains:0.000}"
        );
        Line($"another leak remains when the first is found: {study.RemainsAfterFirstFound:0.000}");
        Line($"| search | all leaks found | checks | minutes | sound spots named, a car |");
        Line($"|---|---|---|---|---|");
        foreach (
            var (name, result) in new[]
            {
                ("advised, by leaks found a minute", study.Advised),
                ("every spot once, in circuit order", study.FixedOrder),
                ("usual suspects, stop at the first clear find (practice)", study.Practice),
            }
        )
            Line(
                $"| {name} | {result.AllFound:0.000} | {result.MeanChecks:0.0} | {result.MeanMinutes:0} | {
                result.WronglyNamed:0.00} |"
            );
        return text.ToString();
    }

    public static string Of(HoldStudy study)
    {
        var text = new StringBuilder();
        void Line(FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Line($"{study.Holds} invented holds; simulated, not measured");
        Bins(text, study.LeakBins);
        Line($"odds of a leak that shows, mean error of calibration: {study.CalibrationError:0.000}");
        Line($"squared error {study.Brier:0.0000}, always saying the mean {study.BrierOfPrior:0.0000}");
        Line($"true inflow inside its 90 % interval: {study.IntervalCoverage:0.000}");
        Line($"sound systems called leaking at 9 to 1: {study.FalseLeak:0.0000}");
        return text.ToString();
    }

    private static void Bins(StringBuilder text, IEnumerable<(double Said, double Was, int Count)> bins)
    {
        text.Append("| odds said | was so | how often |\n|---|---|---|\n");
        foreach (var (said, was, count) in bins)
            text.Append(CultureInfo.InvariantCulture, $"| {said:0.000} | {was:0.000} | {count} |\n");
    }
}
