using System.Globalization;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Refrigerant;
using Tightcold.Loop.Results;

namespace Tightcold.Loop.Tests.Reference;

/// <summary>Every line of the table in docs/validation.md, computed. The figures stand in the document with their
/// source.</summary>
internal static class ValidationRows
{
    public static IEnumerable<string> All() =>
        [
            .. Chart(),
            .. Standing(),
            .. Textbook(),
            .. Charge(),
            .. Devices(),
            .. FluidRows.Rows(),
            .. PracticeBands.Rows(),
        ];

    internal static LoopModel Car(CompressorKind compressor, ExpansionKind expansion, string refrigerant = "R134a") =>
        new(LoopDesigns.Of(SizeClass.Medium, compressor, expansion, refrigerant));

    private static IEnumerable<string> Chart()
    {
        var model = Car(CompressorKind.Variable, ExpansionKind.ExpansionValve);
        foreach (
            var (ambient, highLeast, highMost, lowLeast, lowMost) in new[]
            {
                (25, 1204.0, 1471.0, 171.0, 209.0),
                (30, 1300, 1590, 196, 240),
                (35, 1500, 1820, 229, 280),
                (40, 1870, 2285, 292, 357),
            }
        )
        {
            var r = model.Solve(MakerChartTests.Chart(ambient)).Readings!.Value;
            yield return Band(
                "1",
                $"high, {ambient} °C, kPa gauge",
                highLeast,
                highMost,
                Gauge(r.HighSidePa) * 100,
                true
            );
            yield return Band("1", $"low, {ambient} °C, kPa gauge", lowLeast, lowMost, Gauge(r.LowSidePa) * 100, true);
        }

        foreach (
            var (inlet, humidity, least, most) in new[]
            {
                (20, 0.55, 6.0, 8.0),
                (25, 0.55, 8.4, 10.9),
                (30, 0.55, 14.5, 17.5),
                (20, 0.65, 7.1, 9.1),
                (25, 0.65, 10.9, 13.4),
                (30, 0.65, 17.5, 20.5),
            }
        )
        {
            var conditions = MakerChartTests.Chart(inlet + MakerChartTests.CabinDropK) with
            {
                CabinK = 273.15 + inlet,
                CabinRelativeHumidity = humidity,
            };
            yield return Band(
                "1",
                FormattableString.Invariant($"vent, inlet {inlet} °C, {100 * humidity:0} %, °C"),
                least,
                most,
                model.Solve(conditions).Readings!.Value.VentK - 273.15,
                false
            );
        }
    }

    private static IEnumerable<string> Standing()
    {
        var model = new LoopModel(new LoopDesign());
        foreach (var (t, bar) in new[] { (15, 3.9), (20, 4.7), (25, 5.6), (30, 6.7), (35, 7.8), (40, 9.1), (45, 10.5) })
        {
            var r = model
                .Solve(LoopConditions.DoorsOpen(273.15 + t, 0.5), 0.6, new LoopFaults { ClutchSlip = 1 })
                .Readings!.Value;
            yield return Figure("2", $"parked, {t} °C, bar gauge", bar, Gauge(r.LowSidePa), "0.00");
        }
    }

    private static IEnumerable<string> Textbook()
    {
        var table = RefrigerantTables.For("R134a");
        table.Row(Math.Log(0.14e6), out var low);
        table.Row(Math.Log(0.80e6), out var high);
        var work = high.EnthalpyAtEntropy(low.VapourEntropy) - low.VapourEnthalpy;
        var cooling = low.VapourEnthalpy - high.LiquidEnthalpy;
        yield return Figure("13", "ideal 0.14 to 0.8 MPa, 0.05 kg/s: cooling, kW", 7.18, 0.05 * cooling / 1e3, "0.000");
        yield return Figure("13", "the same: work, kW", 1.81, 0.05 * work / 1e3, "0.000");
        yield return Figure("13", "the same: COP", 3.97, cooling / work, "0.000");
    }

    private static IEnumerable<string> Charge()
    {
        var valve = Car(CompressorKind.FixedWithFinThermostat, ExpansionKind.ExpansionValve);
        var day = LoopConditions.DoorsOpen(308.15, 0.4);
        double Capacity(LoopModel m, double share) =>
            m.Solve(day, share * m.Design.LabelChargeKg, LoopFaults.None).Readings!.Value.CoolingW;
        double Change(LoopModel m, double share) => 100 * ((Capacity(m, share) / Capacity(m, 1)) - 1);
        yield return Plain(
            "3",
            "valve, fixed: capacity at 40 % less charge, %",
            "down to -25",
            Change(valve, 0.6),
            "0.0"
        );
        yield return Plain(
            "3",
            "valve, fixed: capacity at 20 % more charge, %",
            "down to -25",
            Change(valve, 1.2),
            "0.0"
        );
        var variable = Car(CompressorKind.Variable, ExpansionKind.ExpansionValve);
        yield return Plain(
            "4",
            "variable: largest change of capacity at 70 to 120 % of the label, %",
            "insensitive",
            new[] { 0.7, 0.8, 0.9, 1.1, 1.2 }.Max(share => Math.Abs(Change(variable, share))),
            "0.0"
        );
        var tube = Car(CompressorKind.FixedCycling, ExpansionKind.OrificeTube);
        yield return Plain(
            "11",
            "tube: capacity at 50 % of the label, %",
            "strongly sensitive",
            Change(tube, 0.5),
            "0.0"
        );
        yield return Plain("11", "valve: capacity at 80 % of the label, %", "nearly flat", Change(valve, 0.8), "0.0");
    }

    private static IEnumerable<string> Devices()
    {
        LoopReadings At(ExpansionKind expansion, double rpm) =>
            Car(CompressorKind.Variable, expansion).Solve(LoopConditions.DoorsOpen(308.15, 0.4, rpm)).Readings!.Value;
        var (valve, tube) = (At(ExpansionKind.ExpansionValve, 1200), At(ExpansionKind.OrificeTube, 1200));
        yield return Plain(
            "6",
            "variable: capacity of valve over tube, %",
            "slightly higher",
            100 * ((valve.CoolingW / tube.CoolingW) - 1),
            "0.0"
        );
        yield return Plain(
            "6",
            "variable: COP of valve over tube, %",
            "slightly higher",
            100 * ((Cop(valve) / Cop(tube)) - 1),
            "0.0"
        );
        var (slow, fast) = (At(ExpansionKind.ExpansionValve, 800), At(ExpansionKind.ExpansionValve, 2000));
        yield return Plain(
            "6",
            "variable: capacity, 800 to 2000 turns, %",
            "rises",
            100 * ((fast.CoolingW / slow.CoolingW) - 1),
            "0.0"
        );
        yield return Plain(
            "6",
            "variable: COP, 800 to 2000 turns, %",
            "falls",
            100 * ((Cop(fast) / Cop(slow)) - 1),
            "0.0"
        );
    }

    internal static double Gauge(double pa) => (pa - 101325) / 1e5;

    internal static double Cop(LoopReadings r) => r.CoolingW / r.PowerW;

    internal static string Band(string source, string what, double least, double most, double model, bool relative)
    {
        var outside =
            model < least ? model - least
            : model > most ? model - most
            : 0;
        var deviation =
            outside == 0 ? "inside"
            : relative ? Text(100 * outside / (outside < 0 ? least : most), "+0.0;-0.0") + " % outside"
            : Text(Math.Round(outside, 1), "+0.0;-0.0;0.0") + " K outside";
        return $"| {source} | {what} | {Text(least, "0.#")} to {Text(most, "0.#")} | {Text(model, "0.0")} | {deviation} |";
    }

    private static string Figure(string source, string what, double figure, double model, string format) =>
        $"| {source} | {what} | {Text(figure, "0.##")} | {Text(model, format)} | {Text(100 * ((model / figure) - 1), "+0.0;-0.0;0.0")} % |";

    internal static string Plain(string source, string what, string figure, double model, string format) =>
        $"| {source} | {what} | {figure} | {Text(model, "+" + format + ";-" + format)} | see text |";

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
