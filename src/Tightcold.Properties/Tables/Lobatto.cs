namespace Tightcold.Properties.Tables;

/// <summary>
/// Polynomials of degree 5 on [-1, 1] through the six Chebyshev-Lobatto points, which include both ends: two cells
/// that share an edge share the points on it, so the interpolant is continuous across it.
/// </summary>
internal static class Lobatto
{
    public const int Count = 6;

    /// <summary>The points, ascending from -1 to 1.</summary>
    public static readonly double[] Points =
    [
        .. Enumerable.Range(0, Count).Select(i => -Math.Cos(Math.PI * i / (Count - 1))),
    ];

    // _toPowers[k, i]: coefficient of x^k in the Lagrange polynomial of point i.
    private static readonly double[,] ToPowers = MakeToPowers();

    /// <summary>Coefficients of x^0..x^5 of the polynomial through values at the points.</summary>
    public static void Coefficients(ReadOnlySpan<double> values, Span<double> coefficients)
    {
        for (var k = 0; k < Count; k++)
        {
            var sum = 0.0;
            for (var i = 0; i < Count; i++)
                sum += ToPowers[k, i] * values[i];
            coefficients[k] = sum;
        }
    }

    private static double[,] MakeToPowers()
    {
        var result = new double[Count, Count];
        for (var i = 0; i < Count; i++)
        {
            double[] polynomial = [1, 0, 0, 0, 0, 0];
            var scale = 1.0;
            var degree = 0;
            for (var j = 0; j < Count; j++)
            {
                if (j == i)
                    continue;
                scale *= Points[i] - Points[j];
                for (var k = ++degree; k >= 0; k--)
                    polynomial[k] = (k > 0 ? polynomial[k - 1] : 0) - (Points[j] * polynomial[k]);
            }

            for (var k = 0; k < Count; k++)
                result[k, i] = polynomial[k] / scale;
        }

        return result;
    }
}
