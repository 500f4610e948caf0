using System.Diagnostics;
using System.Globalization;
using Tightcold.Properties;

namespace Tightcold.Bench;

/// <summary>
/// The least time of many short runs: on a machine shared with others the mean tells of the others, the least of the
/// code. Ten seconds for a table; the long way is the benchmark harness.
/// </summary>
internal static class QuickTable
{
    private const int Runs = 150;

    public static void Write(TextWriter output)
    {
        output.WriteLine("| call | R134a | R1234yf | R744 | bytes |");
        output.WriteLine("|---|---|---|---|---|");
        string[] names = ["R134a", "R1234yf", "R744"];
        var sets = names.Select(name => (Fluid: FluidCatalog.Get(name), Points: new StatePoints(name))).ToList();
        foreach (var set in sets)
            set.Fluid.Fast.BuildAll();
        Row("reference (T,rho) -> p, h, s", (f, q, i) => f.AtTemperatureDensity(q.SingleTemperatureK[i], q.SingleDensity[i]).EnthalpyJPerKg);
        Row("reference saturation at T, with h and s", (f, q, i) => f.SaturationAtTemperature(q.SaturationTemperatureK[i]).VapourEnthalpyJPerKg);
        Row("reference saturation at p, with h and s", (f, q, i) => f.SaturationAtPressure(q.SaturationPressurePa[i]).VapourEnthalpyJPerKg);
        Row("reference (p,T)", (f, q, i) => f.AtTemperaturePressure(q.SingleTemperatureK[i], q.SinglePressurePa[i]).DensityKgPerM3);
        Row("reference (p,h)", (f, q, i) => f.AtPressureEnthalpy(q.PressurePa[i], q.EnthalpyJPerKg[i]).TemperatureK);
        Row("reference (p,s)", (f, q, i) => f.AtPressureEntropy(q.PressurePa[i], q.EntropyJPerKgK[i]).TemperatureK);
        Row("fast saturation pressure at T", (f, q, i) => f.Fast.SaturationPressurePa(q.SaturationTemperatureK[i]));
        Row("fast saturation at T, all", (f, q, i) => f.Fast.SaturationAtTemperature(q.SaturationTemperatureK[i]).VapourEnthalpyJPerKg);
        Row("fast saturation at p, all", (f, q, i) => f.Fast.SaturationAtPressure(q.SaturationPressurePa[i]).VapourEnthalpyJPerKg);
        Row("fast (p,h)", (f, q, i) => f.Fast.AtPressureEnthalpy(q.PressurePa[i], q.EnthalpyJPerKg[i]).TemperatureK);
        Row("fast (p,h) with derivatives", (f, q, i) => f.Fast.AtPressureEnthalpy(q.PressurePa[i], q.EnthalpyJPerKg[i], out var d).TemperatureK + d.DensityByInput);
        Row("fast (p,T)", (f, q, i) => f.Fast.AtPressureTemperature(q.SinglePressurePa[i], q.SingleTemperatureK[i]).DensityKgPerM3);
        Row("fast (p,T) with derivatives", (f, q, i) => f.Fast.AtPressureTemperature(q.SinglePressurePa[i], q.SingleTemperatureK[i], out var d).DensityKgPerM3 + d.EnthalpyByInput);
        Row("fast (p,s) with derivatives", (f, q, i) => f.Fast.AtPressureEntropy(q.PressurePa[i], q.EntropyJPerKgK[i], out var d).TemperatureK + d.DensityByInput);
        Row("empty call (harness)", (_, q, i) => q.PressurePa[i]);
        var air = Least(i => HumidAir.FromRelativeHumidity(280 + (0.01 * i), 0.5, 101325).WetBulbK, 40);
        var enthalpy = Least(i => HumidAir.EnthalpyJPerKgDryAir(280 + (0.01 * i), 0.005, 101325), 400);
        var saturated = Least(i => HumidAir.SaturationHumidityRatio(280 + (0.01 * i), 101325), 400);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"moist air: full state {air / 1000:0.0} us, enthalpy {enthalpy / 1000:0.00} us, saturation humidity ratio {saturated / 1000:0.00} us"));

        void Row(string call, Func<Fluid, StatePoints, int, double> run)
        {
            var times = sets.Select(set => Least(i => run(set.Fluid, set.Points, i), 512)).ToList();
            var before = GC.GetAllocatedBytesForCurrentThread();
            for (var i = 0; i < 256; i++)
                run(sets[0].Fluid, sets[0].Points, i);
            var bytes = (GC.GetAllocatedBytesForCurrentThread() - before) / 256;
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {call} | {string.Join(" | ", times.Select(time => time.ToString("0.#", CultureInfo.InvariantCulture)))} | {bytes} |"));
        }
    }

    private static double Least(Func<int, double> run, int count)
    {
        var least = double.PositiveInfinity;
        var sink = 0.0;
        // The runtime compiles hot code twice, in the background: give it calls and time to do so.
        for (var warm = 0; warm < 3; warm++)
        {
            for (var i = 0; i < 40 * count; i++)
                sink += run(i % (StatePoints.Count - count));
            Thread.Sleep(150);
        }

        for (var r = 0; r < Runs; r++)
        {
            // Different points in each run, as in use: tables then come from the caches that they would come from.
            var offset = r * count % (StatePoints.Count - count);
            var start = Stopwatch.GetTimestamp();
            for (var i = 0; i < count; i++)
                sink += run(offset + i);
            least = Math.Min(least, Stopwatch.GetElapsedTime(start).TotalNanoseconds / count);
        }

        return double.IsNaN(sink) ? double.NaN : least;
    }
}
