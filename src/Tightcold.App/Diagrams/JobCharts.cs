using System.Collections.Immutable;
using System.Globalization;
using Tightcold.App.Units;
using Tightcold.Findings;
using Tightcold.Findings.Books;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.App.Diagrams;

/// <summary>Charts of a job and of a car over the years: each a drawing and the same in words, or null while there is nothing
/// to draw.</summary>
public static class JobCharts
{
    private const double KgPerOz = 0.028349523125;

    /// <summary>More readings than this draw no better curve.</summary>
    private const int MostPoints = 40;

    /// <summary>What is in the system, at each scale reading, against the label.</summary>
    public static (string Svg, string Words)? Charge(JobRecord record, ReaderUnits units)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(units);
        var turn = record.Journal.Standing.LastOrDefault(entry => entry.Kind == EntryKinds.Pump)?.ObservedAt ?? DateTimeOffset.MinValue;
        var readings = record.Journal.OfKind(EntryKinds.ScaleReading).Where(entry => entry.ObservedAt > turn).TakeLast(MostPoints).ToArray();
        if (readings.Length < 2) return null;
        var points = readings.Select(reading =>
        {
            var (until, _) = Journal.Create(record.Journal.Standing.Where(entry => entry.ObservedAt <= reading.ObservedAt && entry.Supersedes is null || entry == reading));
            return ((reading.ObservedAt - readings[0].ObservedAt).TotalMinutes, Mass(MassBalance.Of(record with { Journal = until! }).SystemKg, units));
        }).ToArray();
        var label = record.Car.LabelCharge?.Kilograms;
        var words = $"In the system, computed from the scale: {string.Join("; ", points.Select(point => string.Create(CultureInfo.InvariantCulture, $"after {point.TotalMinutes:0} min {point.Item2:0.##} {Unit(units)}")))}."
            + (label is { } of ? $" The label asks for {units.Format(Measure.Kilograms(of))}." : "");
        var top = Math.Max(points.Max(point => point.Item2), label is { } full ? Mass(full * 1.1, units) : 0);
        var chart = new LineChart("Charge in the system against time", words, (0, points[^1].TotalMinutes), (0, top));
        chart.Axes("minutes", $"{Unit(units)} in the system");
        if (label is { } target)
        {
            var tolerance = record.Car.LabelTolerance?.Kilograms ?? Findings.WeighIn.LiveWeighIn.UsualToleranceKg;
            chart.Band(Mass(target - tolerance, units), Mass(target + tolerance, units), $"label {units.Format(Measure.Kilograms(target))}");
        }
        chart.Joined(points.Select(point => (point.TotalMinutes, point.Item2)));
        foreach (var point in points) chart.Point(point.TotalMinutes, point.Item2);
        return (chart.Finish(), words);
    }

    /// <summary>The vent in time against what a sound car blows in that air, as the finding's own table has it.</summary>
    public static (string Svg, string Words)? Vent(JobRecord record, Finding? proof, ReaderUnits units)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(units);
        var vents = record.Journal.OfKind(EntryKinds.VentReading).ToArray();
        if (vents.Length < 2) return null;
        ImmutableArray<PhrasePart.Range> bands = proof?.Table?.Rows is { } rows && rows.Length == vents.Length && rows.All(row => row.Length > 3 && row[3].Parts.OfType<PhrasePart.Range>().Any())
            ? [.. rows.Select(row => row[3].Parts.OfType<PhrasePart.Range>().First())] : [];
        var points = vents.Select(entry => ((entry.ObservedAt - vents[0].ObservedAt).TotalMinutes, Warmth(entry.Fields.Si("vent-temperature")!.Value, units))).ToArray();
        var ends = bands.SelectMany(band => new[] { Warmth(band.Low.Si, units), Warmth(band.High.Si, units) }).Concat(points.Select(point => point.Item2)).ToArray();
        var words = string.Join(" ", points.Select((point, i) => string.Create(CultureInfo.InvariantCulture, $"After {point.TotalMinutes:0} min the vent blew {point.Item2:0.#} {Degree(units)}")
            + (bands.Length > 0 ? $"; a sound car there, from a model, {units.Format(bands[i].Low, bands[i].High)}." : ".")));
        var chart = new LineChart("Vent in time against a sound car", words, (0, points[^1].TotalMinutes), (ends.Min(), ends.Max()));
        chart.Axes("minutes", $"{Degree(units)} at the vent; bars: a sound car");
        for (var i = 0; i < bands.Length; i++) chart.Bar(points[i].TotalMinutes, Warmth(bands[i].Low.Si, units), Warmth(bands[i].High.Si, units));
        chart.Joined(points.Select(point => (point.TotalMinutes, point.Item2)));
        foreach (var point in points) chart.Point(point.TotalMinutes, point.Item2);
        return (chart.Finish(), words);
    }

    /// <summary>What each visit of a car found and left.</summary>
    public static (string Svg, string Words)? History(CarHistory history, double? labelKg, ReaderUnits units)
    {
        ArgumentNullException.ThrowIfNull(history);
        ArgumentNullException.ThrowIfNull(units);
        static double Year(DateTimeOffset moment) => moment.Year + ((moment.DayOfYear - 1) / 365.25);
        var masses = history.Visits.SelectMany(visit => new[] { (Year(visit.Came), visit.FoundKg, false), (Year(visit.Went), visit.LeftKg, true) })
            .Where(mass => mass.Item2 is not null).Select(mass => (Year: mass.Item1, Mass: Mass(mass.Item2!.Value, units), Left: mass.Item3)).ToArray();
        if (masses.Length < 2) return null;
        var words = string.Join(" ", masses.Select(mass => string.Create(CultureInfo.InvariantCulture, $"{(mass.Left ? "Left with" : "Found with")} {mass.Mass:0.##} {Unit(units)} in {Math.Floor(mass.Year):0}.")));
        double from = masses.Min(mass => mass.Year), to = masses.Max(mass => mass.Year);
        if (to - from < 0.25) (from, to) = (from - 0.1, to + 0.1);
        var chart = new LineChart("Charge over the years", words, (from, to), (0, Math.Max(masses.Max(mass => mass.Mass), labelKg is { } full ? Mass(full * 1.1, units) : 0)));
        chart.Axes("years", $"{Unit(units)}; dot: left with, ring: found", year => year.ToString(to - from < 3 ? "0.0" : "0", CultureInfo.InvariantCulture));
        if (labelKg is { } label) chart.Band(Mass(0.97 * label, units), Mass(1.03 * label, units), $"label {units.Format(Measure.Kilograms(label))}");
        // From one that was left with a mass to the next that was found: that fall is the leak.
        for (var i = 1; i < masses.Length; i++) if (masses[i - 1].Left && !masses[i].Left) chart.Joined([(masses[i - 1].Year, masses[i - 1].Mass), (masses[i].Year, masses[i].Mass)]);
        foreach (var mass in masses) if (mass.Left) chart.Point(mass.Year, mass.Mass); else chart.Ring(mass.Year, mass.Mass);
        return (chart.Finish(), words);
    }

    private static double Mass(double kilograms, ReaderUnits units) => units.System == UnitSystem.Us ? kilograms / KgPerOz : kilograms * 1000;
    private static string Unit(ReaderUnits units) => units.System == UnitSystem.Us ? "oz" : "g";
    private static double Warmth(double kelvins, ReaderUnits units) => units.System == UnitSystem.Us ? ((kelvins - 273.15) * 1.8) + 32 : kelvins - 273.15;
    private static string Degree(ReaderUnits units) => units.System == UnitSystem.Us ? "°F" : "°C";
}
