using System.Collections.Concurrent;
using Tightcold.Properties;

namespace Tightcold.Loop.Refrigerant;

/// <summary>
/// The loop's tables, made from the reference equations once and shipped as data: a phone would be at it for seconds.
/// A table is read the first time it is asked for and kept; it is immutable, so sharing it is safe. <c>dotnet run
/// --project tools/Tightcold.Studies -c Release -- tables</c> makes the files anew; a test holds them against the
/// equations.
/// </summary>
public static class RefrigerantTables
{
    private const int NodeCount = 193;
    private const double LowestTemperatureK = 200;
    private const double HighestShareOfCritical = 0.93;
    private const double WidestSuperheatK = 130;
    private const int FitPoints = 16;

    private static readonly ConcurrentDictionary<string, Lazy<RefrigerantTable>> Made = new(StringComparer.Ordinal);

    /// <summary>The refrigerants of the loop model. R-744 runs above its critical point in a car and is not among
    /// them.</summary>
    public static IReadOnlyList<string> Names { get; } = ["R134a", "R1234yf", "R152a"];

    /// <summary>The table of a refrigerant, spelled as in <see cref="FluidCatalog"/> or as people write it.</summary>
    /// <exception cref="ArgumentException">Not one of <see cref="Names"/>; the message says why.</exception>
    public static RefrigerantTable For(string name)
    {
        var known = FluidCatalog.NameOf(name);
        if (!Names.Contains(known))
            throw new ArgumentException(
                $"The loop model serves {string.Join(", ", Names)}; {known} is not among them.",
                nameof(name)
            );
        return Made.GetOrAdd(known, _ => new Lazy<RefrigerantTable>(() => TableFile.Shipped(known))).Value;
    }

    /// <summary>
    /// A charge of two refrigerants, as one fluid between them: at each pressure the boiling temperature of an ideal
    /// solution (Raoult), every other column by mass. Glide is left out. A first estimate only.
    /// </summary>
    /// <param name="secondMassShare">Mass of the second over mass of both, 0 to 1.</param>
    public static RefrigerantTable Blend(RefrigerantTable first, RefrigerantTable second, double secondMassShare)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        if (!(secondMassShare >= 0 && secondMassShare <= 1))
            throw new ArgumentOutOfRangeException(
                nameof(secondMassShare),
                secondMassShare,
                "A share of 0 to 1 is wanted."
            );
        return secondMassShare == 0 ? first
            : secondMassShare == 1 ? second
            : BlendedTable.Make(first, second, secondMassShare);
    }

    /// <summary>From the reference equations: some tens of milliseconds on a desk.</summary>
    internal static RefrigerantTable Build(Fluid fluid)
    {
        var low = Math.Log(fluid.SaturationAtTemperature(LowestTemperatureK).PressurePa);
        var high = Math.Log(HighestShareOfCritical * fluid.CriticalPressurePa);
        var step = (high - low) / (NodeCount - 1);
        var nodes = new double[NodeCount][];
        for (var i = 0; i < NodeCount; i++)
            nodes[i] = Node(fluid, Math.Exp(low + (i * step)));
        return new RefrigerantTable(
            fluid.Name,
            low,
            step,
            nodes,
            fluid.CriticalTemperatureK,
            fluid.CriticalPressurePa,
            fluid.MolarMassKgPerMol
        );
    }

    private static double[] Node(Fluid fluid, double pressurePa)
    {
        var dome = fluid.SaturationAtPressure(pressurePa);
        var widest = Math.Min(WidestSuperheatK, fluid.MaxTemperatureK - dome.TemperatureK - 1);
        Span<double> x = stackalloc double[FitPoints],
            h = stackalloc double[FitPoints],
            v = stackalloc double[FitPoints],
            s = stackalloc double[FitPoints],
            log = stackalloc double[FitPoints];
        for (var i = 0; i < FitPoints; i++)
        {
            x[i] = widest * (i + 1) * (i + 1) / (FitPoints * FitPoints);
            var state = fluid.AtTemperaturePressure(dome.TemperatureK + x[i], pressurePa);
            h[i] = state.EnthalpyJPerKg - dome.VapourEnthalpyJPerKg;
            v[i] = (dome.VapourDensityKgPerM3 / state.DensityKgPerM3) - 1;
            s[i] = state.EntropyJPerKgK - dome.VapourEntropyJPerKgK;
            log[i] = Math.Log(1 + (x[i] / dome.TemperatureK));
        }

        var (h1, h2, h3) = ThreeTermFit.Fit(x, x, h);
        var (v1, v2, v3) = ThreeTermFit.Fit(x, x, v);
        var (s1, s2, s3) = ThreeTermFit.Fit(x, log, s);
        // Mean cp of the liquid over the 10 K below saturation, which is what subcooling takes.
        var liquid = fluid.AtTemperaturePressure(dome.TemperatureK - 10, pressurePa);
        var cp = (dome.LiquidEnthalpyJPerKg - liquid.EnthalpyJPerKg) / 10;
        return
        [
            dome.TemperatureK,
            dome.LiquidEnthalpyJPerKg,
            dome.VapourEnthalpyJPerKg,
            dome.VapourEntropyJPerKgK,
            dome.LiquidDensityKgPerM3,
            pressurePa / dome.VapourDensityKgPerM3,
            cp,
            h1,
            h2,
            h3,
            v1,
            v2,
            v3,
            s1,
            s2,
            s3,
        ];
    }
}
