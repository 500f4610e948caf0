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

    private NormalProposal(double[] mean, double[] factor, int d, double width)
    {
        this.mean = mean;
        this.factor = factor;
        transposed = new double[d * d];
        for (var i = 0; i < d; i++)
        for (var j = 0; j <= i; j++)
            transposed[(j * d) + i] = factor[(i * d) + j];
        this.d = d;
        this.width = width;
        logRoot = (-0.5 * d * Math.Log(2 * Math.PI)) - (d * Math.Log(width));
        for (var k = 0; k < d; k++)
            logRoot += Math.Log(factor[(k * d) + k]);
    }

    /// <param name="width">Times the standard deviation of the precision.</param>
    /// <returns>Null when the precision is none.</returns>
    public static NormalProposal? Of(double[] mean, double[] precision, int d, double width)
    {
        var factor = Cholesky(precision, d);
        return factor is null ? null : new(mean, factor, d, width);
    }

    /// <summary>Lower factor of a symmetric positive matrix, or null.</summary>
    public static double[]? Cholesky(double[] matrix, int d)
    {
        var l = (double[])matrix.Clone();
        for (var j = 0; j < d; j++)
        {
            for (var i = j; i < d; i++)
            {
                var sum = l[(i * d) + j];
                for (var k = 0; k < j; k++)
                    sum -= l[(i * d) + k] * l[(j * d) + k];
                if (i == j)
                {
                    if (!(sum > 1e-12))
                        return null;
                    l[(j * d) + j] = Math.Sqrt(sum);
                }
                else
                {
                    l[(i * d) + j] = sum / l[(j * d) + j];
                }
            }

            for (var k = j + 1; k < d; k++)
                l[(j * d) + k] = 0;
        }

        return l;
    }

    /// <summary>Solves L Lᵀ x = b.</summary>
    public static double[] Solve(double[] factor, double[] b, int d)
    {
        var x = (double[])b.Clone();
        for (var i = 0; i < d; i++)
        {
            for (var k = 0; k < i; k++)
                x[i] -= factor[(i * d) + k] * x[k];
            x[i] /= factor[(i * d) + i];
        }

        Back(factor, x, d);
        return x;
    }

    /// <summary>Standard normal coordinates become a point of this distribution, in place.</summary>
    public void Place(Span<double> at)
    {
        for (var k = 0; k < d; k++)
            at[k] *= width;
        Back(factor, at, d);
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

    /// <summary>Solves Lᵀ x = b in place.</summary>
    private static void Back(double[] factor, Span<double> x, int d)
    {
        for (var i = d - 1; i >= 0; i--)
        {
            for (var k = i + 1; k < d; k++)
                x[i] -= factor[(k * d) + i] * x[k];
            x[i] /= factor[(i * d) + i];
        }
    }
}
