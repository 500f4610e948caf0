namespace Tightcold.Numerics.Interpolation;

/// <summary>
/// A Chebyshev series on one interval: the polynomial through the values at the Chebyshev nodes.
/// Immutable; evaluation by Clenshaw's recurrence.
/// </summary>
public sealed class ChebyshevSeries
{
    private readonly double[] _coefficients;
    private readonly double _centre;
    private readonly double _inverseHalfWidth;

    private ChebyshevSeries(double lower, double upper, double[] coefficients)
    {
        Lower = lower;
        Upper = upper;
        _centre = 0.5 * (lower + upper);
        _inverseHalfWidth = 2 / (upper - lower);
        _coefficients = coefficients;
    }

    /// <summary>Lower end of the interval.</summary>
    public double Lower { get; }

    /// <summary>Upper end of the interval.</summary>
    public double Upper { get; }

    /// <summary>The nodes at which <see cref="FromNodeValues"/> expects values, in descending order.</summary>
    /// <param name="lower">Lower end.</param>
    /// <param name="upper">Upper end, above <paramref name="lower"/>.</param>
    /// <param name="count">Number of nodes, at least 2.</param>
    /// <exception cref="ArgumentOutOfRangeException">The interval is empty or the count below 2.</exception>
    public static double[] Nodes(double lower, double upper, int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 2);
        if (!(upper > lower))
            throw new ArgumentOutOfRangeException(
                nameof(upper),
                upper,
                "The interval needs an upper end above its lower end."
            );
        var nodes = new double[count];
        for (var i = 0; i < count; i++)
            nodes[i] = (0.5 * (lower + upper)) + (0.5 * (upper - lower) * Math.Cos(Math.PI * (i + 0.5) / count));
        return nodes;
    }

    /// <summary>The series through values at the nodes given by <see cref="Nodes"/>.</summary>
    /// <param name="lower">Lower end.</param>
    /// <param name="upper">Upper end.</param>
    /// <param name="values">One value for each node, in the order of <see cref="Nodes"/>.</param>
    public static ChebyshevSeries FromNodeValues(double lower, double upper, ReadOnlySpan<double> values)
    {
        var count = values.Length;
        var coefficients = new double[count];
        for (var j = 0; j < count; j++)
        {
            var sum = 0.0;
            for (var i = 0; i < count; i++)
                sum += values[i] * Math.Cos(Math.PI * j * (i + 0.5) / count);
            coefficients[j] = sum * (j == 0 ? 1.0 : 2.0) / count;
        }

        return new ChebyshevSeries(lower, upper, coefficients);
    }

    /// <summary>
    /// Coefficients of 1, y, y², … of the same polynomial, y running from -1 to 1 over the interval. Good for series
    /// that have converged, whose high coefficients are too small for the large numbers this mixes.
    /// </summary>
    public double[] ToPowers()
    {
        var count = _coefficients.Length;
        var powers = new double[count];
        double[] previous = new double[count],
            current = new double[count];
        previous[0] = 1;
        current[1] = 1;
        powers[0] = _coefficients[0];
        for (var n = 1; n < count; n++)
        {
            for (var k = 0; k < count; k++)
                powers[k] += _coefficients[n] * current[k];
            var next = new double[count];
            for (var k = 0; k < count; k++)
                next[k] = (k > 0 ? 2 * current[k - 1] : 0) - previous[k];
            (previous, current) = (current, next);
        }

        return powers;
    }

    /// <summary>Value of the series; outside the interval it extrapolates.</summary>
    public double Evaluate(double x)
    {
        var y = (x - _centre) * _inverseHalfWidth;
        var twice = 2 * y;
        double b1 = 0,
            b2 = 0;
        for (var i = _coefficients.Length - 1; i > 0; i--)
        {
            var b = (twice * b1) - b2 + _coefficients[i];
            b2 = b1;
            b1 = b;
        }

        return (y * b1) - b2 + _coefficients[0];
    }
}
