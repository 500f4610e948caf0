using Tightcold.Findings.Steps;
using Tightcold.Picture.Vacuum;
using Tightcold.Quantities;

namespace Tightcold.App.Diagrams;

/// <summary>A hold: the readings, and what a leak at the floor, the likeliest leak and water would have made of
/// it.</summary>
public static class HoldDiagram
{
    public static string Draw(HoldView view, IMeasureFormat units)
    {
        string Vacuum(double pascals) => units.Format(new Measure(QuantityKind.Vacuum, pascals));
        var water = view.Odds.WaterPa;
        var top = Math.Max(view.Readings.Max(reading => reading.PressurePa), 1.2 * water);
        var chart = new TimeChart(
            view.SpanSeconds,
            Math.Max(1, 0.7 * view.Readings.Min(reading => reading.PressurePa)),
            top,
            "Hold with its explanations",
            InWords(view, units)
        );
        chart.Axes(Vacuum, seconds => units.Format(Measure.Seconds(seconds)));
        chart.Level(water, "water boils at " + Vacuum(water));
        chart.Curve(Leak(view, view.Odds.FloorPaM3PerS), "2 3");
        if (view.Odds.LeakSeen > 0.2)
            chart.Curve(Leak(view, view.Odds.LeakMedianPaM3PerS), "8 3", 2);
        chart.Curve([(0, view.Readings[0].PressurePa), (view.SpanSeconds, view.Readings[0].PressurePa)], "none", 1);
        foreach (var reading in view.Readings)
            chart.Point(reading.SecondsSinceStart - view.Readings[0].SecondsSinceStart, reading.PressurePa);
        return chart.Finish();
    }

    /// <summary>From the first reading, air through a hole of this inflow; dotted is the smallest that would
    /// show.</summary>
    private static IEnumerable<(double, double)> Leak(HoldView view, double throughputPaM3PerS)
    {
        for (var i = 0; i <= 40; i++)
        {
            var seconds = view.SpanSeconds * i / 40;
            yield return (seconds, view.Readings[0].PressurePa + throughputPaM3PerS / view.Setting.VolumeM3 * seconds);
        }
    }

    public static string InWords(HoldView view, IMeasureFormat units)
    {
        var read = string.Join(
            "; ",
            view.Readings.Select(reading =>
                $"after {units.Format(Measure.Seconds(reading.SecondsSinceStart - view.Readings[0].SecondsSinceStart))} {units.Format(new Measure(QuantityKind.Vacuum, reading.PressurePa))}"
            )
        );
        return $"Read: {read}. By itself: {HoldWords.LooksLike(view.Odds)}.";
    }
}
