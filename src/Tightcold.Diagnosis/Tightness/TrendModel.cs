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
            shapeSelf = new double[shapes.Length];
        double[] shapeRead = new double[shapes.Length];
        for (var s = 0; s < shapes.Length; s++)
        {
            if (shape[s] is not { } curve)
                continue;
            shapeSelf[s] = TrendClass.Dot(curve, curve);
            shapeRead[s] = TrendClass.Dot(curve, y);
            for (var q = 0; q < leaks.Length; q++)
                shapeLeak[s * leaks.Length + q] = TrendClass.Dot(curve, leak[q]);
        }
        var residual = new double[y.Length];
        Span<double> logs = stackalloc double[shapes.Length],
            shapeWater = stackalloc double[shapes.Length];
        var logWeight = Array.ConvertAll(shapes, s => Math.Log(s.Weight));
        for (var w = 0; w < waters.Length; w++)
        {
            var water = waters[w] is { } curve ? each.Freed(curve) : null;
            for (var i = 0; i < y.Length; i++)
                residual[i] = y[i] - (water?[i] ?? 0);
            var self = TrendClass.Dot(residual, residual);
            for (var s = 0; s < shapes.Length; s++)
                shapeWater[s] = shape[s] is { } gas && water is not null ? TrendClass.Dot(gas, water) : 0;
            for (var q = 0; q < leaks.Length; q++)
            {
                var apart = self - 2 * TrendClass.Dot(residual, leak[q]) + TrendClass.Dot(leak[q], leak[q]);
                var top = double.NegativeInfinity;
                for (var s = 0; s < shapes.Length; s++)
                {
                    var log = logWeight[s];
                    if (shape[s] is not null)
                        log += LogHalfNormal(
                            shapeRead[s] - shapeLeak[s * leaks.Length + q] - shapeWater[s],
                            shapeSelf[s],
                            shapes[s].Scale
                        );
                    logs[s] = log;
                    top = Math.Max(top, log);
                }
                var sum = 0.0;
                for (var s = 0; s < shapes.Length; s++)
                    sum += Math.Exp(logs[s] - top);
                result[w][q] = LogSum(result[w][q], each.LogScale - 0.5 * apart + top + Math.Log(sum));
            }
        }
    }

    /// <summary>ln ∫₀^∞ exp(A·ru − ½A²·uu)·2φ(A/s)/s dA.</summary>
    private static double LogHalfNormal(double along, double self, double scale)
    {
        var precision = self + 1 / (scale * scale);
        var z = along / Math.Sqrt(precision);
        // Far below zero Φ(z) underflows in this form; φ(z)/|z| is its asymptote.
        var below =
            z > -5 ? Math.Log(Math.Max(Normal.Cumulative(z), 1e-12)) : -0.5 * z * z - Math.Log(-z) - 0.9189385332;
        return 0.5 * z * z + 0.6931471806 - Math.Log(scale * Math.Sqrt(precision)) + below;
    }

    public static double LogSum(double a, double b)
    {
        if (double.IsNegativeInfinity(a))
            return b;
        if (double.IsNegativeInfinity(b))
            return a;
        return a > b ? a + Math.Log(1 + Math.Exp(b - a)) : b + Math.Log(1 + Math.Exp(a - b));
    }
}
