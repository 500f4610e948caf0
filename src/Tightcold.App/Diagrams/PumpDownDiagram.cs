using Tightcold.Picture.Vacuum;
using Tightcold.Quantities;

namespace Tightcold.App.Diagrams;

/// <summary>Pump-down: the expected band, and what the gauge showed.</summary>
public static class PumpDownDiagram
{
    private static readonly int[] ToldMinutes = [5, 15, 30, 45];

    public static string Draw(PumpView view, IMeasureFormat units)
    {
        var longest = Math.Max(
            1800,
            Math.Max(
                view.Observed.IsEmpty ? 0 : view.Observed.Max(row => row.Seconds),
                1.3 * (view.Forecast.EnoughSeconds ?? 3600)
            )
        );
        var kept = Enumerable
            .Range(0, view.Forecast.Seconds.Length)
            .Where(i => view.Forecast.Seconds[i] <= longest)
            .ToArray();
        var lowest = Math.Min(
            view.Forecast.LowPa.Min(),
            view.Observed.IsEmpty ? double.MaxValue : view.Observed.Min(row => row.PressurePa)
        );
        var chart = new TimeChart(
            longest,
            Math.Max(lowest, 1),
            1e5,
            "Pump-down, expected against observed",
            InWords(view, units)
        );
        string Vacuum(double pascals) => units.Format(new Measure(QuantityKind.Vacuum, pascals));
        chart.Axes(Vacuum, seconds => units.Format(Measure.Seconds(seconds)));
        chart.Band([.. kept.Select(i => (view.Forecast.Seconds[i], view.Forecast.LowPa[i], view.Forecast.HighPa[i]))]);
        chart.Curve(kept.Select(i => (view.Forecast.Seconds[i], view.Forecast.MedianPa[i])), "6 3");
        chart.Level(view.Forecast.TargetPa, "dry below " + Vacuum(view.Forecast.TargetPa));
        foreach (var row in view.Observed)
            chart.Point(row.Seconds, row.PressurePa);
        return chart.Finish();
    }

    /// <summary>The same for who cannot see it.</summary>
    public static string InWords(PumpView view, IMeasureFormat units)
    {
        string Vacuum(double pascals) => units.Format(new Measure(QuantityKind.Vacuum, pascals));
        var expected = string.Join(
            "; ",
            ToldMinutes.Select(minutes =>
                view.Forecast.At(minutes * 60) is var at
                    ? $"after {units.Format(Measure.Seconds(minutes * 60))} {units.Format(new(QuantityKind.Vacuum, at.LowPa), new(QuantityKind.Vacuum, at.HighPa))}"
                    : ""
            )
        );
        var observed = view.Observed.IsEmpty
            ? "nothing yet"
            : string.Join(
                "; ",
                view.Observed.Select(row =>
                    $"after {units.Format(Measure.Seconds(row.Seconds))} {Vacuum(row.PressurePa)}"
                )
            );
        return $"Expected (computed): {expected}. Read: {observed}. Dry below {Vacuum(view.Forecast.TargetPa)}.";
    }
}
