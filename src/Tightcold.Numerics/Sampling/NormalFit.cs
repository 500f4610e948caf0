using Tightcold.Numerics.Distributions;
using Tightcold.Numerics.Matrices;

namespace Tightcold.Numerics.Sampling;

/// <summary>A normal distribution fitted to weighted points, by its Cholesky factor.</summary>
internal sealed class NormalFit
{
    private readonly double[] mean;
    private readonly double[] factor;
    private readonly int d;
    private readonly double logNorm;

    private NormalFit(double[] mean, double[] factor, int d)
    {
        this.mean = mean;
        this.factor = factor;
        this.d = d;
        logNorm = -d * Normal.LogRootTwoPi;
        for (var k = 0; k < d; k++)
            logNorm -= Math.Log(factor[k * d + k]);
    }

    public static double LogStandard(ReadOnlySpan<double> at)
    {
        var sum = 0.0;
        foreach (var x in at)
            sum += x * x;
        return -0.5 * sum - at.Length * Normal.LogRootTwoPi;
    }

    /// <summary>Weighted mean and covariance, widened; null when no point carries weight.</summary>
    public static NormalFit? Of(double[] points, double[] weights, int count, int d, double widening)
    {
        var mean = new double[d];
        var total = 0.0;
        for (var i = 0; i < count; i++)
        {
            total += weights[i];
            for (var k = 0; k < d; k++)
                mean[k] += weights[i] * points[i * d + k];
        }
        if (!(total > 0.5))
            return null;
        var covariance = new double[d * d];
        for (var i = 0; i < count; i++)
        for (var k = 0; k < d; k++)
        for (var l = 0; l <= k; l++)
            covariance[k * d + l] += weights[i] * (points[i * d + k] - mean[k]) * (points[i * d + l] - mean[l]);
        for (var k = 0; k < d; k++)
        {
            for (var l = 0; l <= k; l++)
                covariance[k * d + l] *= widening * widening;
            // A fit on too few points collapses; this floor is far below any posterior width that matters.
            covariance[k * d + k] += 1e-8;
        }
        return Cholesky.TryFactor(covariance, d) ? new(mean, covariance, d) : null;
    }

    public void Draw(SeededChance stream, Span<double> at)
    {
        Span<double> z = stackalloc double[d];
        for (var k = 0; k < d; k++)
            z[k] = stream.Normal();
        for (var k = 0; k < d; k++)
        {
            at[k] = mean[k];
            for (var l = 0; l <= k; l++)
                at[k] += factor[k * d + l] * z[l];
        }
    }

    public double LogDensity(ReadOnlySpan<double> at)
    {
        Span<double> z = stackalloc double[d];
        for (var k = 0; k < d; k++)
            z[k] = at[k] - mean[k];
        Cholesky.Forward(factor, z);
        var sum = 0.0;
        foreach (var x in z)
            sum += x * x;
        return logNorm - 0.5 * sum;
    }
}
