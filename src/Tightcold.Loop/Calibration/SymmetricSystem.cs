namespace Tightcold.Loop.Calibration;

/// <summary>A symmetric matrix with all eigenvalues at least 1, as Cholesky's L L'.</summary>
internal sealed class SymmetricSystem
{
    private readonly double[,] _lower;
    private readonly int _n;

    public SymmetricSystem(double[,] matrix)
    {
        _n = matrix.GetLength(0);
        _lower = new double[_n, _n];
        for (var i = 0; i < _n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = matrix[i, j];
                for (var k = 0; k < j; k++)
                    sum -= _lower[i, k] * _lower[j, k];
                _lower[i, j] = i == j ? Math.Sqrt(sum) : sum / _lower[j, j];
            }
        }
    }

    public double[] Solve(double[] right)
    {
        var y = new double[_n];
        for (var i = 0; i < _n; i++)
        {
            y[i] = right[i];
            for (var k = 0; k < i; k++)
                y[i] -= _lower[i, k] * y[k];
            y[i] /= _lower[i, i];
        }

        return Back(y);
    }

    /// <summary>F with F F' = (L L')^-1: F = L'^-1, by rows.</summary>
    public double[][] InverseFactor()
    {
        var rows = new double[_n][];
        for (var i = 0; i < _n; i++)
            rows[i] = new double[_n];
        for (var column = 0; column < _n; column++)
        {
            var unit = new double[_n];
            unit[column] = 1;
            var x = Back(unit);
            for (var i = 0; i < _n; i++)
                rows[i][column] = x[i];
        }

        return rows;
    }

    private double[] Back(double[] y)
    {
        var x = new double[_n];
        for (var i = _n - 1; i >= 0; i--)
        {
            x[i] = y[i];
            for (var k = i + 1; k < _n; k++)
                x[i] -= _lower[k, i] * x[k];
            x[i] /= _lower[i, i];
        }

        return x;
    }
}
