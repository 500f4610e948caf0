using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Tightcold.Loop.Refrigerant;

/// <summary>
/// A refrigerant as the loop reads it: cubic Hermite columns over the logarithm of pressure, filled from the reference
/// equation once. One look-up gives every column at once. Immutable and thread-safe.
/// </summary>
public sealed class RefrigerantTable
{
    internal const int Columns = 16;

    // Four coefficients of sixteen columns for each interval, in the order of use.
    private readonly double[] _coefficients;
    private readonly double _firstLog;
    private readonly double _inverseStep;
    private readonly int _intervals;

    internal RefrigerantTable(
        string name,
        double firstLog,
        double step,
        double[][] nodes,
        double criticalTemperatureK,
        double criticalPressurePa,
        double molarMassKgPerMol
    )
    {
        Name = name;
        _firstLog = firstLog;
        _inverseStep = 1 / step;
        _intervals = nodes.Length - 1;
        Nodes = nodes;
        Step = step;
        CriticalTemperatureK = criticalTemperatureK;
        CriticalPressurePa = criticalPressurePa;
        MolarMassKgPerMol = molarMassKgPerMol;
        _coefficients = HermiteColumns.Build(nodes);
        MinLogPressure = firstLog;
        MaxLogPressure = firstLog + (step * _intervals);
    }

    /// <summary>Name of the refrigerant, for example "R134a".</summary>
    public string Name { get; }

    public double CriticalTemperatureK { get; }

    public double CriticalPressurePa { get; }

    public double MolarMassKgPerMol { get; }

    /// <summary>Lowest pressure served, Pa.</summary>
    public double MinPressurePa => Math.Exp(MinLogPressure);

    /// <summary>Highest pressure served, Pa: 93 % of the critical one.</summary>
    public double MaxPressurePa => Math.Exp(MaxLogPressure);

    internal double MinLogPressure { get; }

    internal double MaxLogPressure { get; }

    internal double[][] Nodes { get; }

    internal double Step { get; }

    /// <summary>Saturation temperature, K, at an absolute pressure within the table, Pa; beyond its ends, that of the
    /// end.</summary>
    public double SaturationTemperatureK(double pressurePa)
    {
        Row(Math.Log(pressurePa), out var row);
        return row.TemperatureK;
    }

    /// <summary>Saturation pressure, Pa, at a temperature, K; beyond the table's ends, that of the end.</summary>
    public double SaturationPressurePa(double temperatureK)
    {
        double low = MinLogPressure,
            high = MaxLogPressure;
        // Newton in a bracket and no search by values: the row gives the slope along.
        var guess = 0.5 * (low + high);
        for (var i = 0; i < 60; i++)
        {
            Row(guess, out var row);
            if (row.TemperatureK > temperatureK)
                high = guess;
            else
                low = guess;
            // dT/dlnp = T^2 / B; B changes slowly, so one slope serves (Clausius-Clapeyron).
            var slope = row.TemperatureK * (row.VapourVolume - (1 / row.LiquidDensity)) / row.Latent * row.PressurePa;
            var next = guess + ((temperatureK - row.TemperatureK) / slope);
            if (!(next > low && next < high))
                next = 0.5 * (low + high);
            if (Math.Abs(next - guess) < 1e-12)
                break;
            guess = next;
        }

        return Math.Exp(guess);
    }

    /// <summary>All columns at the logarithm of an absolute pressure; clamped to the ends of the table.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal void Row(double logPressure, out SaturationRow row)
    {
        var clamped = Math.Min(Math.Max(logPressure, MinLogPressure), MaxLogPressure);
        Row(clamped, Math.Exp(clamped), out row);
    }

    /// <summary>As above where the pressure itself is at hand; both must lie in the table.</summary>
    internal void Row(double logPressure, double pressurePa, out SaturationRow row)
    {
        var place = (logPressure - _firstLog) * _inverseStep;
        var interval = Math.Min(Math.Max((int)place, 0), _intervals - 1);
        var t = Vector256.Create(place - interval);
        ref var c = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_coefficients), interval * 4 * Columns);
        var a = Cubic(ref c, t);
        var b = Cubic(ref Unsafe.Add(ref c, 16), t);
        var d = Cubic(ref Unsafe.Add(ref c, 32), t);
        var e = Cubic(ref Unsafe.Add(ref c, 48), t);
        row.PressurePa = pressurePa;
        row.CriticalK = CriticalTemperatureK;
        row.TemperatureK = a[0];
        row.LiquidEnthalpy = a[1];
        row.VapourEnthalpy = a[2];
        row.VapourEntropy = a[3];
        row.LiquidDensity = b[0];
        row.VapourVolume = b[1] / pressurePa;
        row.LiquidCp = b[2];
        row.H1 = b[3];
        row.H2 = d[0];
        row.H3 = d[1];
        row.V1 = d[2];
        row.V2 = d[3];
        row.V3 = e[0];
        row.S1 = e[1];
        row.S2 = e[2];
        row.S3 = e[3];
    }

    /// <summary>The stored columns themselves, for making a table from a table.</summary>
    internal double[] Columns16(double logPressure)
    {
        var place = (logPressure - _firstLog) * _inverseStep;
        var interval = Math.Min(Math.Max((int)place, 0), _intervals - 1);
        var values = new double[Columns];
        for (var group = 0; group < Columns / 4; group++)
        {
            var four = Cubic(
                ref _coefficients[(interval * 4 * Columns) + (group * 16)],
                Vector256.Create(place - interval)
            );
            for (var k = 0; k < 4; k++)
                values[(group * 4) + k] = four[k];
        }

        return values;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Cubic(ref double c, Vector256<double> t)
    {
        var c0 = Vector256.LoadUnsafe(ref c);
        var c1 = Vector256.LoadUnsafe(ref c, 4);
        var c2 = Vector256.LoadUnsafe(ref c, 8);
        var c3 = Vector256.LoadUnsafe(ref c, 12);
        return c0 + (t * (c1 + (t * (c2 + (t * c3)))));
    }
}
