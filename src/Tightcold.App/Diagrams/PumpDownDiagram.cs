using Tightcold.Picture.Vacuum;
using Tightcold.Quantities;
using Tightcold.Tongues;
using GaugeScale = Tightcold.Picture.Pressures.Gauges;

namespace Tightcold.App.Diagrams;

/// <summary>Pump-down: the expected band, and what the gauge showed.</summary>
public static class PumpDownDiagram
{
    private static readonly int[] ToldMinutes = [5, 15, 30, 45];

    public static string Draw(PumpView view, IMeasureFormat units)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(units);
        var longest = Math.Max(
            1800,
            Math.Max(
                view.Observed.IsEmpty ? 0 : 1.1 * view.Observed.Max(row => row.Seconds),
                1.3 * (view.Forecast.EnoughSeconds ?? 3600)
            )
        );
        var kept = Enumerable
            .Range(0, view.Forecast.Seconds.Length)
            .Where(i => view.Forecast.Seconds[i] <= longest)
            .ToArray();
        var lowest = Math.Min(
            Math.Min(view.Forecast.LowPa.Min(), 0.5 * view.Forecast.TargetPa),
            view.Observed.IsEmpty ? double.MaxValue : view.Observed.Min(row => row.PressurePa)
        );
        var chart = new TimeChart(
            longest,
            Math.Max(lowest, 1),
            1e5,
            straight: false,
            Say.It("Pump-down, expected against observed"),
            InWords(view, units)
        );
        chart.Axes(Say.It("↑ pressure left"), units.Format(Measure.Seconds(longest)));
        for (var i = 0; i < view.Observed.Length; i++)
        {
            var row = view.Observed[i];
            chart.Point(
                row.Seconds,
                row.PressurePa,
                row.SigmaPa,
                i == view.Observed.Length - 1 ? Shown(view, row.PressurePa, row.OnDial, units) : ""
            );
        }
        chart.Level(view.Forecast.TargetPa, Say.It($"dry below {Shown(view, view.Forecast.TargetPa, false, units)}"));
        chart.Band(
            [.. kept.Select(i => (view.Forecast.Seconds[i], view.Forecast.LowPa[i], view.Forecast.HighPa[i]))],
            Say.It("expected, with this pump")
        );
        chart.Curve(kept.Select(i => (view.Forecast.Seconds[i], view.Forecast.MedianPa[i])), "6 3", 1.5, "");
        return chart.Finish();
    }

    /// <summary>What to look for, in one sentence.</summary>
    public static string LookFor(PumpView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        if (view.Observed.IsEmpty)
            return Say.It("Nothing read yet: your dots should run down inside the grey band.");
        return view.Observed[^1].OnDial
            ? Say.It(
                "Your dots should lie in the grey band; whether it is dry, the dotted line, only a vacuum gauge can "
                    + "show."
            )
            : Say.It("Your dots should run in the grey band or below it, and end below the dotted line.");
    }

    /// <summary>A dial is read below the air around it; microns from one are more than it shows.</summary>
    private static string Shown(PumpView view, double pascals, bool onDial, IMeasureFormat units) =>
        units.Format(
            onDial ? GaugeScale.Shown(pascals, view.Setup.BarometerPa) : new Measure(QuantityKind.Vacuum, pascals)
        );

    /// <summary>The same for who cannot see it.</summary>
    public static string InWords(PumpView view, IMeasureFormat units)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(units);
        string Between(double low, double high) =>
            units.Format(new(QuantityKind.Vacuum, low), new(QuantityKind.Vacuum, high));
        string Vacuum(double pascals) => units.Format(new Measure(QuantityKind.Vacuum, pascals));
        var expected = string.Join(
            "; ",
            ToldMinutes.Select(minutes =>
                view.Forecast.At(minutes * 60) is var at
                    ? Say.It($"after {units.Format(Measure.Seconds(minutes * 60))} {Between(at.LowPa, at.HighPa)}")
                    : ""
            )
        );
        var observed = view.Observed.IsEmpty
            ? Say.It("nothing yet")
            : string.Join(
                "; ",
                view.Observed.Select(row =>
                    Say.It(
                        $"after {units.Format(Measure.Seconds(row.Seconds))} "
                            + $"{Shown(view, row.PressurePa, row.OnDial, units)}"
                    )
                )
            );
        return Say.It(
            $"Expected (computed): {expected}. Read: {observed}. Dry below {Vacuum(view.Forecast.TargetPa)}."
        );
    }
}
