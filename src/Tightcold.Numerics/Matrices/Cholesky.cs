namespace Tightcold.Numerics.Matrices;

/// <summary>
/// A symmetric positive matrix as L Lᵀ with L lower, row by row in one array, in place and without allocation (Golub
/// and Van Loan, Matrix Computations, chapter 4).
/// </summary>
public static class Cholesky
{
    /// <summary>The lower triangle of a matrix becomes its factor; above the diagonal it is made zero.</summary>
    /// <param name="matrix">size × size; only the lower triangle is read.</param>
    /// <param name="leastPivot">A pivot not above this, before its root, counts as none.</param>
    /// <returns>False where the matrix is not positive; what it then holds is of no use.</returns>
    public static bool TryFactor(Span<double> matrix, int size, double leastPivot = 0) =>
        Factor(matrix, size, leastPivot, raise: false);

    /// <summary>The same for a matrix that is positive but for rounding: a pivot below <paramref name="leastPivot"/> is
    /// raised to it.</summary>
    public static void FactorRaised(Span<double> matrix, int size, double leastPivot) =>
        Factor(matrix, size, leastPivot, raise: true);

    private static bool Factor(Span<double> matrix, int size, double leastPivot, bool raise)
    {
        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j < i; j++)
                matrix[(i * size) + j] = Rest(matrix, size, i, j) / matrix[(j * size) + j];
            var pivot = Rest(matrix, size, i, i);
            if (!raise && !(pivot > leastPivot))
                return false;
            matrix[(i * size) + i] = Math.Sqrt(raise ? Math.Max(pivot, leastPivot) : pivot);
            matrix.Slice((i * size) + i + 1, size - i - 1).Clear();
        }

        return true;
    }

    /// <summary>Solves L y = b in place.</summary>
    public static void Forward(ReadOnlySpan<double> factor, Span<double> b)
    {
        for (var i = 0; i < b.Length; i++)
        {
            for (var k = 0; k < i; k++)
                b[i] -= factor[(i * b.Length) + k] * b[k];
            b[i] /= factor[(i * b.Length) + i];
        }
    }

    /// <summary>Solves Lᵀ x = b in place.</summary>
    public static void Back(ReadOnlySpan<double> factor, Span<double> b)
    {
        for (var i = b.Length - 1; i >= 0; i--)
        {
            for (var k = i + 1; k < b.Length; k++)
                b[i] -= factor[(k * b.Length) + i] * b[k];
            b[i] /= factor[(i * b.Length) + i];
        }
    }

    /// <summary>Solves L Lᵀ x = b in place.</summary>
    public static void Solve(ReadOnlySpan<double> factor, Span<double> b)
    {
        Forward(factor, b);
        Back(factor, b);
    }

    private static double Rest(ReadOnlySpan<double> matrix, int size, int i, int j)
    {
        var sum = matrix[(i * size) + j];
        for (var k = 0; k < j; k++)
            sum -= matrix[(i * size) + k] * matrix[(j * size) + k];
        return sum;
    }
}
