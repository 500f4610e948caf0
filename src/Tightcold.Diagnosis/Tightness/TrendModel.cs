using Tightcold.Numerics.Distributions;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>
/// Readings of a shut-off system against time: still gas, heat and gauge (classes), gas that comes or goes by itself
/// (shapes, their amount integrated in closed form), water (curves that are given whole) and a leak.
/// </summary>
internal sealed class TrendModel(TrendClass[] classes, TrendShape[] shapes, double[]?[] waters, double[][] leaks)
{
    /// <summary>ln L, one row for each water curve, one column for each leak.</summary>
    public double[][] LogLikelihoods(double[] read)
    {
        var result = new double[waters.Length][];
        for (var w = 0; w < waters.Length; w++)
        {
            result[w] = new double[leaks.Length];
            Array.Fill(result[w], double.NegativeInfinity);
        }
        foreach (var each in classes)
            Add(each, read, result);
        return result;
    }

    private void Add(TrendClass each, double[] read, double[][] result)
    {
        var y = each.Freed(read);
        var leak = Array.ConvertAll(leaks, each.Freed);
        var shape = Array.ConvertAll(shapes, s => s.Curve is null ? null : each.Freed(s.Curve));
        double[] shapeLeak = new double[shapes.Length * leaks.Length],
            shapeRead = new double[shapes.Length],
            // ln ∫₀^∞ exp(A·ru − ½A²·uu)·2φ(A/s)/s dA = ln 2 − ln(s·√(uu + 1/s²)) + ½z² + ln Φ(z), z = ru/√(uu + 1/s²).
            perRoot = new double[shapes.Length],
            logAlone = new double[shapes.Length];
        for (var s = 0; s < shapes.Length; s++)
        {
            logAlone[s] = Math.Log(shapes[s].Weight);
            if (shape[s] is not { } curve)
                continue;
            var scale = shapes[s].Scale;
            var root = Math.Sqrt(TrendClass.Dot(curve, curve) + 1 / (scale * scale));
            perRoot[s] = 1 / root;
            logAlone[s] += Math.Log(2 / (scale * root));
            shapeRead[s] = TrendClass.Dot(curve, y) * perRoot[s];
            for (var q = 0; q < leaks.Length; q++)
                shapeLeak[s * leaks.Length + q] = TrendClass.Dot(curve, leak[q]) * perRoot[s];
        }
        var leakSelf = Array.ConvertAll(leak, one => TrendClass.Dot(one, one));
        var residual = new double[y.Length];
        double[] logs = new double[shapes.Length],
            shapeWater = new double[shapes.Length];
        var (count, below) = (leaks.Length, Below);
        for (var w = 0; w < waters.Length; w++)
        {
            var water = waters[w] is { } curve ? each.Freed(curve) : null;
            for (var i = 0; i < y.Length; i++)
                residual[i] = y[i] - (water?[i] ?? 0);
            var self = TrendClass.Dot(residual, residual);
            for (var s = 0; s < shapes.Length; s++)
                shapeWater[s] = shape[s] is { } gas && water is not null ? TrendClass.Dot(gas, water) * perRoot[s] : 0;
            for (var q = 0; q < leaks.Length; q++)
            {
                var apart = self - 2 * TrendClass.Dot(residual, leak[q]) + leakSelf[q];
                var top = double.NegativeInfinity;
                for (var s = 0; s < logs.Length; s++)
                {
                    var log = logAlone[s];
                    if (perRoot[s] > 0)
                    {
                        // Written out for what lies on the table: where code is interpreted, calls are what costs.
                        var z = shapeRead[s] - shapeLeak[s * count + q] - shapeWater[s];
                        var place = (z - LeastZ) * PlacesAUnit;
                        if (place > 0 && place < below.Length - 1)
                        {
                            var k = (int)place;
                            log += below[k] + (place - k) * (below[k + 1] - below[k]);
                        }
                        else
                            log += z > 0 ? 0.5 * z * z : Far(z);
                    }
                    logs[s] = log;
                    if (log > top)
                        top = log;
                }
                var sum = 0.0;
                for (var s = 0; s < logs.Length; s++)
                    if (logs[s] > top - Negligible)
                        sum += Math.Exp(logs[s] - top);
                result[w][q] = LogSum(result[w][q], each.LogScale - 0.5 * apart + top + Math.Log(sum));
            }
        }
    }

    /// <summary>e⁻⁴⁰ of a sum is lost in its rounding.</summary>
    private const double Negligible = 40;

    private const double LeastZ = -40,
        MostZ = 8,
        PlacesAUnit = 64;

    /// <summary>½z² + ln Φ(z), which every reading, try and shape asks for: straight between places, right to 3e-5.</summary>
    private static readonly double[] Below =
    [
        .. Enumerable
            .Range(0, (int)((MostZ - LeastZ) * PlacesAUnit) + 1)
            .Select(i => Exactly(LeastZ + i / PlacesAUnit)),
    ];

    private static double Exactly(double z) => z > -5 ? 0.5 * z * z + Math.Log(Normal.Cumulative(z)) : Far(z);

    /// <summary>Far below zero Φ(z) is φ(z)/|z|·(1 − 1/z² + 3/z⁴).</summary>
    private static double Far(double z) => Math.Log((1 - 1 / (z * z) + 3 / (z * z * z * z)) / -z) - Normal.LogRootTwoPi;

    public static double LogSum(double a, double b)
    {
        if (double.IsNegativeInfinity(a))
            return b;
        if (double.IsNegativeInfinity(b))
            return a;
        return a > b ? a + Math.Log(1 + Math.Exp(b - a)) : b + Math.Log(1 + Math.Exp(a - b));
    }
}
