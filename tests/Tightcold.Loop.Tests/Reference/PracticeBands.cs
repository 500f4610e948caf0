using Tightcold.Loop.Designs;
using Tightcold.Loop.Results;

namespace Tightcold.Loop.Tests.Reference;

/// <summary>
/// The bands people hold a gauge against at 1000 to 1500 turns: the trade's table (common practice, no source), a
/// maker's of a car of 1998 and one of a saloon of 2000 (service manual texts). All R-134a. docs/validation.md prints
/// every line and says what each leaves open.
/// </summary>
internal static class PracticeBands
{
    private static readonly (string Name, CompressorKind Compressor, ExpansionKind Expansion)[] Cars =
    [
        ("valve, fixed", CompressorKind.FixedWithFinThermostat, ExpansionKind.ExpansionValve),
        ("tube, cycling", CompressorKind.FixedCycling, ExpansionKind.OrificeTube),
        ("valve, variable", CompressorKind.Variable, ExpansionKind.ExpansionValve),
    ];

    /// <summary>Doors open, full blower, 1500 turns; half humid, but no more water than a dew point of 16 °C: nobody's
    /// 43 °C day is half humid.</summary>
    public static LoopConditions Day(double celsius) =>
        LoopConditions.DoorsOpen(celsius + 273.15, Math.Min(0.5, Humidity(celsius, 16)));

    public static (
        int Fahrenheit,
        double LowLeast,
        double LowMost,
        double HighLeast,
        double HighMost
    )[] Trade { get; } =
    [
        (70, 35, 40, 140, 175),
        (80, 35, 45, 170, 210),
        (90, 40, 50, 200, 250),
        (100, 45, 55, 250, 325),
        (110, 50, 60, 300, 350),
    ];

    public static LoopReadings At(CompressorKind compressor, ExpansionKind expansion, LoopConditions day) =>
        ValidationRows.Car(compressor, expansion).Solve(day).Readings!.Value;

    public static double Celsius(double fahrenheit) => (fahrenheit - 32) / 1.8;

    public static double Psig(double pa) => ValidationRows.Gauge(pa) * 14.50377;

    public static IEnumerable<string> Rows() => [.. TradeTable(), .. Variable(), .. Of1998(), .. Of2000()];

    private static IEnumerable<string> TradeTable()
    {
        foreach (var (name, compressor, expansion) in Cars)
        {
            foreach (var (f, lowLeast, lowMost, highLeast, highMost) in Trade)
            {
                var r = At(compressor, expansion, Day(Celsius(f)));
                yield return ValidationRows.Band(
                    "14 practice",
                    $"{name}, {f} °F, low, psig",
                    lowLeast,
                    lowMost,
                    Psig(r.LowSidePa),
                    true
                );
                yield return ValidationRows.Band(
                    "14 practice",
                    $"{name}, {f} °F, high, psig",
                    highLeast,
                    highMost,
                    Psig(r.HighSidePa),
                    true
                );
            }

            foreach (var c in new[] { 25, 30 })
                yield return ValidationRows.Band(
                    "14 practice",
                    $"{name}, {c} °C, vent, °C",
                    5,
                    12,
                    At(compressor, expansion, Day(c)).VentK - 273.15,
                    false
                );
        }
    }

    /// <summary>A variable compressor with stroke to spare is taught to hold its suction: 25 to 30 psig.</summary>
    private static IEnumerable<string> Variable()
    {
        foreach (var f in new[] { 70, 80, 90 })
            yield return ValidationRows.Band(
                "14 practice",
                $"valve, variable within its stroke, {f} °F, low, psig",
                25,
                30,
                Psig(At(CompressorKind.Variable, ExpansionKind.ExpansionValve, Day(Celsius(f))).LowSidePa),
                true
            );
    }

    private static IEnumerable<string> Of1998()
    {
        foreach (var (name, compressor, expansion) in Cars)
        {
            foreach (var (f, highLeast, highMost) in new[] { (70, 100.0, 200.0), (80, 125, 230), (90, 150, 260) })
            {
                var r = At(compressor, expansion, Day(Celsius(f)));
                yield return ValidationRows.Band("15", $"{name}, {f} °F, low, psig", 25, 45, Psig(r.LowSidePa), true);
                yield return ValidationRows.Band(
                    "15",
                    $"{name}, {f} °F, high, psig",
                    highLeast,
                    highMost,
                    Psig(r.HighSidePa),
                    true
                );
                yield return ValidationRows.Band("15", $"{name}, {f} °F, vent, °C", 0.6, 8, r.VentK - 273.15, false);
            }
        }
    }

    private static IEnumerable<string> Of2000()
    {
        foreach (
            var (f, ventF, highLeast, highMost, lowLeast, lowMost) in new[]
            {
                (70, 42.0, 200.0, 230.0, 15.0, 25.0),
                (80, 45, 210, 250, 20, 30),
                (90, 50, 240, 280, 25, 35),
                (100, 54, 280, 320, 30, 40),
                (110, 59, 320, 365, 35, 45),
            }
        )
        {
            var cabinC = Celsius(f) - MakerChartTests.CabinDropK;
            var day = LoopConditions
                .DoorsOpen(Celsius(f) + 273.15, 0.5, 1000)
                .Recirculating(cabinC + 273.15, Math.Min(0.5, Humidity(cabinC, 16)));
            var r = At(CompressorKind.FixedWithFinThermostat, ExpansionKind.ExpansionValve, day);
            yield return ValidationRows.Band(
                "16",
                $"valve, fixed, {f} °F, low, psig",
                lowLeast,
                lowMost,
                Psig(r.LowSidePa),
                true
            );
            yield return ValidationRows.Band(
                "16",
                $"valve, fixed, {f} °F, high, psig",
                highLeast,
                highMost,
                Psig(r.HighSidePa),
                true
            );
            yield return ValidationRows.Band(
                "16",
                $"valve, fixed, {f} °F, vent, °C",
                Celsius(ventF),
                Celsius(ventF),
                r.VentK - 273.15,
                false
            );
        }
    }

    // Magnus form, WMO constants: relative humidity of air of that dew point.
    private static double Humidity(double celsius, double dewPointC) =>
        Math.Exp((17.62 * dewPointC / (243.12 + dewPointC)) - (17.62 * celsius / (243.12 + celsius)));
}
