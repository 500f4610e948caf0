using System.Collections.Immutable;
using Tightcold.App.Units;
using Tightcold.Jobs.Entries;
using Tightcold.Picture;
using Tightcold.Picture.Books;
using Tightcold.Picture.Cold;
using Tightcold.Picture.WeighIn;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Diagrams;

/// <summary>Charts of a job and of a car over the years: each a drawing and the same in words, or null while there is
/// nothing to draw.</summary>
public static class JobCharts
{
    private const double KgPerOz = 0.028349523125;

    /// <summary>More readings than this draw no better curve.</summary>
    private const int MostPoints = 40;

    /// <summary>What is in the system, at each scale reading, against the label.</summary>
    public static (string Svg, string Words)? Charge(JobPicture picture, ReaderUnits units)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(units);
        var record = picture.Record;
        var turn = record.Journal.Last(EntryKinds.Pump)?.ObservedAt ?? DateTimeOffset.MinValue;
        var readings = picture
            .Mass.Course.Where(point =>
                point.At > turn && record.Journal.Find(point.Entry)?.Kind == EntryKinds.ScaleReading
            )
            .TakeLast(MostPoints)
            .ToArray();
        if (readings.Length < 2)
            return null;
        var points = readings
            .Select(reading => ((reading.At - readings[0].At).TotalMinutes, Mass(Math.Max(0, reading.SystemKg), units)))
            .ToArray();
        var label = record.Car.LabelCharge?.Kilograms;
        var read = string.Join(
            "; ",
            points.Select(point =>
                Say.It($"after {Figure(point.TotalMinutes, "0")} min {Figure(point.Item2, "0.##")} {Unit(units)}")
            )
        );
        var words = label is { } of
            ? Say.It(
                $"In the system, computed from the scale: {read}. The label asks for "
                    + $"{units.Format(Measure.Kilograms(of))}."
            )
            : Say.It($"In the system, computed from the scale: {read}.");
        var top = Math.Max(points.Max(point => point.Item2), label is { } full ? Mass(full * 1.1, units) : 0);
        var chart = new LineChart(
            Say.It("Charge in the system against time"),
            words,
            (0, points[^1].TotalMinutes),
            (0, top)
        );
        chart.Axes(Say.It("minutes"), Say.It($"{Unit(units)} in the system"));
        if (label is { } target)
        {
            var tolerance = record.Car.LabelTolerance?.Kilograms ?? LiveWeighIn.UsualToleranceKg;
            chart.Band(
                Mass(target - tolerance, units),
                Mass(target + tolerance, units),
                Say.It($"label {units.Format(Measure.Kilograms(target))}")
            );
        }
        chart.Joined(points.Select(point => (point.TotalMinutes, point.Item2)));
        foreach (var point in points)
            chart.Point(point.TotalMinutes, point.Item2);
        return (chart.Finish(), words);
    }

    /// <summary>The vent in time against what a sound car blows in that air.</summary>
    public static (string Svg, string Words)? Vent(ColdPicture? cold, ReaderUnits units)
    {
        ArgumentNullException.ThrowIfNull(units);
        if (cold is not { Readings: { Length: >= 2 } vents })
            return null;
        ImmutableArray<(Measure Low, Measure High)> bands =
        [
            .. vents.Select(vent =>
                (
                    Measure.AbsoluteTemperature(vent.Observation.Band.LowK),
                    Measure.AbsoluteTemperature(vent.Observation.Band.HighK)
                )
            ),
        ];
        var points = vents
            .Select(vent =>
                (
                    (vent.Entry.ObservedAt - vents[0].Entry.ObservedAt).TotalMinutes,
                    Warmth(vent.Observation.VentK, units)
                )
            )
            .ToArray();
        var ends = bands
            .SelectMany(band => new[] { Warmth(band.Low.Si, units), Warmth(band.High.Si, units) })
            .Concat(points.Select(point => point.Item2))
            .ToArray();
        var words = string.Join(
            " ",
            points.Select(
                (point, i) =>
                    Say.It(
                        $"After {Figure(point.TotalMinutes, "0")} min the vent blew {Figure(point.Item2, "0.#")} "
                            + $"{Degree(units)}; a sound car there, from a model, "
                            + $"{units.Format(bands[i].Low, bands[i].High)}."
                    )
            )
        );
        var chart = new LineChart(
            Say.It("Vent in time against a sound car"),
            words,
            (0, points[^1].TotalMinutes),
            (ends.Min(), ends.Max())
        );
        chart.Axes(Say.It("minutes"), Say.It($"{Degree(units)} at the vent; bars: a sound car"));
        for (var i = 0; i < bands.Length; i++)
            chart.Bar(points[i].TotalMinutes, Warmth(bands[i].Low.Si, units), Warmth(bands[i].High.Si, units));
        chart.Joined(points.Select(point => (point.TotalMinutes, point.Item2)));
        foreach (var point in points)
            chart.Point(point.TotalMinutes, point.Item2);
        return (chart.Finish(), words);
    }

    /// <summary>What each visit of a car found and left.</summary>
    public static (string Svg, string Words)? History(CarHistory history, double? labelKg, ReaderUnits units)
    {
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(units);
        static double Year(DateTimeOffset moment) => moment.Year + ((moment.DayOfYear - 1) / 365.25);
        static string Month(double year) =>
            new DateTime((int)year, 1, 1)
                .AddDays(365.25 * (year - Math.Floor(year)))
                .ToString("MMM yy", Say.Tongue.Culture);
        var masses = history
            .Visits.SelectMany(visit =>
                new[] { (Year(visit.Came), visit.FoundKg, false), (Year(visit.Went), visit.LeftKg, true) }
            )
            .Where(mass => mass.Item2 is not null)
            .Select(mass => (Year: mass.Item1, Mass: Mass(mass.Item2!.Value, units), Left: mass.Item3))
            .ToArray();
        if (masses.Length < 2)
            return null;
        var words = string.Join(
            " ",
            masses.Select(mass =>
                mass.Left
                    ? Say.It($"Left with {Figure(mass.Mass, "0.##")} {Unit(units)} in {(int)Math.Floor(mass.Year)}.")
                    : Say.It($"Found with {Figure(mass.Mass, "0.##")} {Unit(units)} in {(int)Math.Floor(mass.Year)}.")
            )
        );
        double from = masses.Min(mass => mass.Year),
            to = masses.Max(mass => mass.Year);
        // A visit alone stands within its year.
        if (to - from < 1)
            (from, to) = (Math.Floor(from), Math.Floor(to) + 1);
        var chart = new LineChart(
            Say.It("Charge over the years"),
            words,
            (from, to),
            (0, Math.Max(masses.Max(mass => mass.Mass), labelKg is { } full ? Mass(full * 1.1, units) : 0))
        );
        chart.Axes(Say.It("years"), Say.It($"{Unit(units)}; dot: left with, ring: found"), year =>
            to - from < 3 ? Month(year) : Figure(year, "0")
        );
        if (labelKg is { } label)
            chart.Band(
                Mass(0.97 * label, units),
                Mass(1.03 * label, units),
                Say.It($"label {units.Format(Measure.Kilograms(label))}")
            );
        // From one that was left with a mass to the next that was found: that fall is the leak.
        for (var i = 1; i < masses.Length; i++)
            if (masses[i - 1].Left && !masses[i].Left)
                chart.Joined([(masses[i - 1].Year, masses[i - 1].Mass), (masses[i].Year, masses[i].Mass)]);
        foreach (var mass in masses)
            if (mass.Left)
                chart.Point(mass.Year, mass.Mass);
            else
                chart.Ring(mass.Year, mass.Mass);
        return (chart.Finish(), words);
    }

    private static string Figure(double value, string digits) => value.ToString(digits, Say.Tongue.Culture);

    private static double Mass(double kilograms, ReaderUnits units) =>
        units.System == UnitSystem.Us ? kilograms / KgPerOz : kilograms * 1000;

    private static string Unit(ReaderUnits units) => units.System == UnitSystem.Us ? "oz" : "g";

    private static double Warmth(double kelvins, ReaderUnits units) =>
        units.System == UnitSystem.Us ? ((kelvins - 273.15) * 1.8) + 32 : kelvins - 273.15;

    private static string Degree(ReaderUnits units) => units.System == UnitSystem.Us ? "°F" : "°C";
}
