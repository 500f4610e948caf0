using Tightcold.Findings.Steps;
using Tightcold.Picture.Vacuum;
using Tightcold.Procedures.Hold;
using Tightcold.Quantities;
using Tightcold.Tongues;
using GaugeScale = Tightcold.Picture.Pressures.Gauges;

namespace Tightcold.App.Diagrams;

/// <summary>A hold: the readings, and what a leak at the floor, the likeliest leak and water would have made of it.
/// Even upwards, because a leak is told from water by a straight line.</summary>
public static class HoldDiagram
{
    /// <summary>Where water boils is drawn while it leaves the readings half of the height.</summary>
    private const double WaterWithin = 2;

    /// <summary>Odds of a leak from which the likeliest one is drawn.</summary>
    private const double LeakFrom = 0.2;

    public static string Draw(HoldView view, IMeasureFormat units)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(units);
        var most = view.Readings.Max(reading => reading.PressurePa + (1.645 * Sigma(reading)));
        var chart = new TimeChart(
            view.SpanSeconds,
            0,
            Math.Max(1.35 * most, ShowsWater(view) ? 1.15 * view.Odds.WaterPa : 0),
            straight: true,
            Say.It("Hold with its explanations"),
            InWords(view, units)
        );
        chart.Axes(Say.It("↑ pressure left"), units.Format(Measure.Seconds(view.SpanSeconds)));
        for (var i = 0; i < view.Readings.Length; i++)
        {
            var reading = view.Readings[i];
            chart.Point(
                reading.SecondsSinceStart - view.Readings[0].SecondsSinceStart,
                reading.PressurePa,
                Sigma(reading),
                i == 0 || i == view.Readings.Length - 1 ? Shown(view, reading, units) : ""
            );
        }
        if (ShowsWater(view))
            chart.Level(view.Odds.WaterPa, Say.It("water boils here"));
        chart.Curve(Leak(view, view.Odds.FloorPaM3PerS), "2 3", 1.5, Say.It("smallest leak it shows"));
        if (view.Odds.LeakSeen > LeakFrom)
            chart.Curve(Leak(view, view.Odds.LeakMedianPaM3PerS), "8 3", 2.5, Say.It("leak"));
        chart.Curve([(0, view.Readings[0].PressurePa), (view.SpanSeconds, view.Readings[0].PressurePa)], "none", 1, "");
        return chart.Finish();
    }

    /// <summary>What to look for, in one sentence.</summary>
    public static string LookFor(HoldView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return ShowsWater(view)
            ? Say.It("Follow the dots: level is tight, a straight climb is a leak, a climb that flattens is water.")
            : Say.It(
                "Follow the dots: level is tight, a straight climb is a leak, a climb that flattens is gas or water."
            );
    }

    private static bool ShowsWater(HoldView view) =>
        view.Odds.WaterPa < WaterWithin * view.Readings.Max(reading => reading.PressurePa);

    /// <summary>Step and scatter together.</summary>
    private static double Sigma(HoldReading reading) =>
        Math.Sqrt((reading.ScatterPa * reading.ScatterPa) + (reading.StepPa * reading.StepPa / 12));

    /// <summary>A dial is read below the air around it; microns from one are more than it shows.</summary>
    private static string Shown(HoldView view, HoldReading reading, IMeasureFormat units) =>
        units.Format(
            view.OnDial
                ? GaugeScale.Shown(reading.PressurePa, view.Setting.BarometerPa)
                : new Measure(QuantityKind.Vacuum, reading.PressurePa)
        );

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
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(units);
        var start = view.Readings[0].SecondsSinceStart;
        var read = string.Join(
            "; ",
            view.Readings.Select(reading =>
                Say.It(
                    $"after {units.Format(Measure.Seconds(reading.SecondsSinceStart - start))} "
                        + $"{Shown(view, reading, units)}"
                )
            )
        );
        var looks = HoldWords.LooksLike(view.Odds).Render(units);
        return Say.It($"Read: {read}. By itself: {looks}.");
    }
}
