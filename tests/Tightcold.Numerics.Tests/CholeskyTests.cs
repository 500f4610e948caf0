using CsCheck;
using Tightcold.Numerics.Matrices;

namespace Tightcold.Numerics.Tests;

public sealed class CholeskyTests
{
    /// <summary>A square of random numbers by rows, and its size.</summary>
    private static readonly Gen<(int Size, double[] Numbers)> Squares = Gen.Int[1, 12]
        .SelectMany(size => Gen.Double[-3, 3].Array[size * size].Select(numbers => (size, numbers)));

    /// <summary>B Bᵀ + a tenth of the unit matrix: positive whatever B is.</summary>
    private static double[] Positive(double[] b, int n)
    {
        var a = Times(b, Turned(b, n), n);
        for (var i = 0; i < n; i++)
            a[(i * n) + i] += 0.1;
        return a;
    }

    private static double[] Turned(double[] a, int n) =>
        [.. Enumerable.Range(0, n * n).Select(i => a[(i % n * n) + (i / n)])];

    private static double[] Times(double[] a, double[] b, int n) =>
        [
            .. Enumerable
                .Range(0, n * n)
                .Select(i => Enumerable.Range(0, n).Sum(k => a[(i / n * n) + k] * b[(k * n) + (i % n)])),
        ];

    private static double[] Times(double[] a, ReadOnlySpan<double> x)
    {
        var result = new double[x.Length];
        for (var i = 0; i < x.Length; i++)
        for (var k = 0; k < x.Length; k++)
            result[i] += a[(i * x.Length) + k] * x[k];
        return result;
    }

    // The worked example that textbooks and lexica print: (4 12 -16; 12 37 -43; -16 -43 98) = L Lᵀ with
    // L = (2; 6 1; -8 5 3).
    [Fact]
    public void The_worked_example_of_the_textbooks()
    {
        double[] matrix = [4, 12, -16, 12, 37, -43, -16, -43, 98];
        Assert.True(Cholesky.TryFactor(matrix, 3));
        Assert.Equal([2, 0, 0, 6, 1, 0, -8, 5, 3], matrix);
    }

    // Wilson's matrix and the inverse that is printed with it (J. Todd, The condition of a certain matrix, 1950): from
    // memory, the page not seen.
    [Fact]
    public void The_printed_inverse_of_wilsons_matrix()
    {
        double[] matrix = [5, 7, 6, 5, 7, 10, 8, 7, 6, 8, 10, 9, 5, 7, 9, 10];
        double[][] inverse =
        [
            [68, -41, -17, 10],
            [-41, 25, 10, -6],
            [-17, 10, 5, -3],
            [10, -6, -3, 2],
        ];
        Assert.True(Cholesky.TryFactor(matrix, 4));
        for (var k = 0; k < 4; k++)
        {
            var column = new double[4];
            column[k] = 1;
            Cholesky.Solve(matrix, column);
            for (var i = 0; i < 4; i++)
                Assert.Equal(inverse[k][i], column[i], 1e-10);
        }
    }

    // The symmetric matrix of Pascal's triangle is the triangle times itself turned over: an identity of binomials.
    [Theory]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(10)]
    public void The_factor_of_pascals_matrix_is_pascals_triangle(int n)
    {
        static double Choose(int n, int k) =>
            k < 0 || k > n ? 0
            : k == 0 ? 1
            : Choose(n - 1, k - 1) * n / k;
        double[] matrix = [.. Enumerable.Range(0, n * n).Select(i => Choose((i / n) + (i % n), i % n))];
        Assert.True(Cholesky.TryFactor(matrix, n));
        for (var i = 0; i < n * n; i++)
            Assert.Equal(Choose(i / n, i % n), matrix[i], 1e-9);
    }

    [Fact]
    public void The_factor_times_itself_turned_over_is_the_matrix() =>
        Squares.Sample(square =>
        {
            var (n, numbers) = square;
            var matrix = Positive(numbers, n);
            var factor = (double[])matrix.Clone();
            Assert.True(Cholesky.TryFactor(factor, n));
            for (var i = 0; i < n; i++)
            for (var j = i + 1; j < n; j++)
                Assert.Equal(0, factor[(i * n) + j]);
            Assert.All(matrix.Zip(Times(factor, Turned(factor, n), n)), pair =>
                Assert.Equal(pair.First, pair.Second, 1e-11)
            );
        });

    [Fact]
    public void What_is_solved_gives_the_right_side_again() =>
        Squares.Sample(square =>
        {
            var (n, numbers) = square;
            var matrix = Positive(numbers, n);
            var right = numbers[..n];
            var factor = (double[])matrix.Clone();
            Assert.True(Cholesky.TryFactor(factor, n));
            var (whole, down, up) = ((double[])right.Clone(), (double[])right.Clone(), (double[])right.Clone());
            Cholesky.Solve(factor, whole);
            Cholesky.Forward(factor, down);
            Cholesky.Back(factor, up);
            Assert.All(right.Zip(Times(matrix, whole)), pair => Assert.Equal(pair.First, pair.Second, 1e-9));
            Assert.All(right.Zip(Times(factor, down)), pair => Assert.Equal(pair.First, pair.Second, 1e-9));
            Assert.All(right.Zip(Times(Turned(factor, n), up)), pair => Assert.Equal(pair.First, pair.Second, 1e-9));
        });

    [Fact]
    public void Only_the_lower_triangle_is_read()
    {
        double[] matrix = [4, double.NaN, double.NaN, 12, 37, double.NaN, -16, -43, 98];
        Assert.True(Cholesky.TryFactor(matrix, 3));
        Assert.Equal([2, 0, 0, 6, 1, 0, -8, 5, 3], matrix);
    }

    [Theory]
    [InlineData(1, 2, 1)]
    [InlineData(1, 1, 1)]
    [InlineData(-1, 0, 1)]
    [InlineData(double.NaN, 0, 1)]
    public void A_matrix_that_is_not_positive_has_no_factor(double first, double beside, double last) =>
        Assert.False(Cholesky.TryFactor([first, beside, beside, last], 2));

    [Fact]
    public void A_pivot_below_the_least_is_none_or_is_raised()
    {
        Assert.True(Cholesky.TryFactor([1, 0, 0, 1e-6], 2, 1e-7));
        Assert.False(Cholesky.TryFactor([1, 0, 0, 1e-6], 2, 1e-6));
        double[] matrix = [1, 1, 1, 1];
        Cholesky.FactorRaised(matrix, 2, 1e-6);
        Assert.Equal([1, 0, 1, 1e-3], matrix);
    }
}
