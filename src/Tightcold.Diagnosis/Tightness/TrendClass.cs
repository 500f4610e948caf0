using Tightcold.Numerics.Matrices;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>
/// One way in which heat and gauge may move the readings: p₀·factor with correlated errors. Curves are made white by
/// the Cholesky factor of the errors and freed of the unknown p₀, so that every likelihood is a few inner products.
/// </summary>
internal sealed class TrendClass
{
    private readonly double[] root;
    private readonly double[] unit;
    private readonly int count;

    /// <param name="weight">Odds before the readings.</param>
    /// <param name="factor">p/p₀ of still gas at each reading.</param>
    /// <param name="covariance">Of the errors, count × count by rows; positive definite.</param>
    public TrendClass(double weight, double[] factor, double[] covariance)
    {
        Weight = weight;
        count = factor.Length;
        root = covariance;
        Cholesky.FactorRaised(root, count, 1e-30);
        var logRoot = 0.0;
        for (var i = 0; i < count; i++)
            logRoot += Math.Log(root[i * count + i]);
        unit = White(factor);
        var length = Math.Sqrt(Dot(unit, unit));
        for (var i = 0; i < count; i++)
            unit[i] /= length;
        LogScale = Math.Log(weight) - logRoot - Math.Log(length);
    }

    public double Weight { get; }

    /// <summary>ln of weight, errors' volume and the integral over p₀.</summary>
    public double LogScale { get; }

    /// <summary>The curve, white and free of p₀.</summary>
    public double[] Freed(double[] curve)
    {
        var white = White(curve);
        var along = Dot(white, unit);
        for (var i = 0; i < count; i++)
            white[i] -= along * unit[i];
        return white;
    }

    public static double Dot(double[] a, double[] b)
    {
        var sum = 0.0;
        for (var i = 0; i < a.Length; i++)
            sum += a[i] * b[i];
        return sum;
    }

    private double[] White(double[] curve)
    {
        var white = (double[])curve.Clone();
        Cholesky.Forward(root, white);
        return white;
    }
}
