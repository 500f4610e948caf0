using Tightcold.Numerics.Distributions;
using Tightcold.Numerics.Matrices;

namespace Tightcold.Diagnosis.Inference;

/// <summary>A normal distribution given by its mean and precision, from which points are drawn and whose density is
/// known: mean + L⁻ᵀ ξ for precision L Lᵀ.</summary>
internal sealed class NormalProposal
{
    private readonly double[] mean;
    private readonly double[] factor;

    // Every point ever tried is asked for its density: row by row in memory.
    private readonly double[] transposed;
    private readonly int d;
    private readonly double logRoot;
    private readonly double width;

    /// <param name="factor">Lower factor of the precision.</param>
    /// <param name="width">Times the standard deviation of the precision.</param>
    public NormalProposal(double[] mean, double[] factor, int d, double width)
    {
        this.mean = mean;
        this.factor = factor;
        transposed = new double[d * d];
        for (var i = 0; i < d; i++)
        for (var j = 0; j <= i; j++)
            transposed[(j * d) + i] = factor[(i * d) + j];
        this.d = d;
        this.width = width;
        logRoot = (-d * Normal.LogRootTwoPi) - (d * Math.Log(width));
        for (var k = 0; k < d; k++)
            logRoot += Math.Log(factor[(k * d) + k]);
    }

    /// <summary>Standard normal coordinates become a point of this distribution, in place.</summary>
    public void Place(Span<double> at)
    {
        for (var k = 0; k < d; k++)
            at[k] *= width;
        Cholesky.Back(factor, at);
        for (var k = 0; k < d; k++)
            at[k] += mean[k];
    }

    public double LogDensity(ReadOnlySpan<double> at)
    {
        Span<double> off = stackalloc double[d];
        for (var i = 0; i < d; i++)
            off[i] = at[i] - mean[i];
        var sum = 0.0;
        for (var j = 0; j < d; j++)
        {
            var row = transposed.AsSpan((j * d) + j, d - j);
            var tail = off[j..];
            var y = 0.0;
            for (var i = 0; i < row.Length; i++)
                y += row[i] * tail[i];
            sum += y * y;
        }

        return logRoot - (0.5 * sum / (width * width));
    }
}
