using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using BenchmarkDotNet.Attributes;

namespace Tightcold.Bench;

/// <summary>
/// The same benchmarks, the least time of many short runs: on a machine shared with others the mean tells of the
/// others, the least of the code. A minute for a table; the long way is the benchmark harness.
/// </summary>
internal static class QuickTable
{
    private const int Runs = 12;
    private const int WarmRuns = 4;
    private static readonly string[] Names = ["R134a", "R1234yf", "R744"];

    public static void Write(TextWriter output)
    {
        output.WriteLine("| call | R134a | R1234yf | R744 | bytes |");
        output.WriteLine("|---|---|---|---|---|");
        foreach (var type in (Type[])[typeof(ReferenceLayerBenchmarks), typeof(FastLayerBenchmarks)])
        {
            var layer = type == typeof(FastLayerBenchmarks) ? "fast" : "reference";
            foreach (
                var method in type.GetMethods()
                    .Where(method => method.GetCustomAttribute<BenchmarkAttribute>() is not null)
            )
            {
                var attribute = method.GetCustomAttribute<BenchmarkAttribute>()!;
                var results = Names.Select(name => Measure(type, method, name)).ToList();
                var times = string.Join(
                    " | ",
                    results.Select(result => result.Nanoseconds.ToString("0.#", CultureInfo.InvariantCulture))
                );
                output.WriteLine(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"| {layer} {attribute.Description} | {times} | {results.Max(result => result.Bytes)} |"
                    )
                );
            }
        }

        var air = new HumidAirBenchmarks();
        output.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"moist air: full state {Least(air.State, 100) / 1000:0.0} us, enthalpy {Least(air.Enthalpy, 2000) / 1000:0.00} us, saturation humidity ratio {Least(air.Saturation, 1000) / 1000:0.00} us"
            )
        );
    }

    private static (double Nanoseconds, long Bytes) Measure(Type type, MethodInfo method, string name)
    {
        var instance = Activator.CreateInstance(type)!;
        type.GetProperty("Name")!.SetValue(instance, name);
        type.GetMethod("Setup")!.Invoke(instance, null);
        var call = method.CreateDelegate<Func<double>>(instance);
        var least = Least(call, 1) / StatePoints.Count;
        var before = GC.GetAllocatedBytesForCurrentThread();
        call();
        return (least, (GC.GetAllocatedBytesForCurrentThread() - before) / StatePoints.Count);
    }

    private static double Least(Func<double> call, int repeats)
    {
        // The runtime compiles hot code twice, in the background: give it calls and time to do so.
        for (var warm = 0; warm < WarmRuns; warm++)
            Repeat(call, repeats);
        Thread.Sleep(200);
        for (var warm = 0; warm < WarmRuns; warm++)
            Repeat(call, repeats);
        var least = double.PositiveInfinity;
        for (var r = 0; r < Runs; r++)
        {
            var start = Stopwatch.GetTimestamp();
            Repeat(call, repeats);
            least = Math.Min(least, Stopwatch.GetElapsedTime(start).TotalNanoseconds / repeats);
        }

        return least;
    }

    private static void Repeat(Func<double> call, int repeats)
    {
        for (var i = 0; i < repeats; i++)
            call();
    }
}
