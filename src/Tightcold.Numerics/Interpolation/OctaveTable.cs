namespace Tightcold.Numerics.Interpolation;

/// <summary>A smooth curve over a positive number as a table, straight between 128 places an octave. The place is read from
/// the number's own bits, so that no logarithm is taken; what is curved over ln(x) by c is off by at most c·(2⁻⁷)²/8, some
/// 8e-6 of it.</summary>
public sealed class OctaveTable
{
    private const int PlacesBits = 7,
        RestBits = 52 - PlacesBits;
    private const long RestMask = (1L << RestBits) - 1;
    private const double LeastNormal = 2.2250738585072014e-308,
        RestUnit = 1.0 / (1L << RestBits);

    private readonly long first;
    private readonly double[] values;

    /// <param name="least">Below it the curve is taken as level; above 0.</param>
    /// <param name="most">And above it; above <paramref name="least"/>, both finite.</param>
    /// <param name="curve">Asked once for each place.</param>
    /// <exception cref="ArgumentOutOfRangeException">The ends are not as said.</exception>
    public OctaveTable(double least, double most, Func<double, double> curve)
    {
        ArgumentNullException.ThrowIfNull(curve);
        if (!(least >= LeastNormal))
            throw new ArgumentOutOfRangeException(nameof(least), least, "above 0");
        if (!(most > least && most < double.MaxValue / 2))
            throw new ArgumentOutOfRangeException(nameof(most), most, "above the least, and finite");
        first = Place(least);
        values = new double[Place(most) - first + 2];
        for (var i = 0; i < values.Length; i++)
            values[i] = curve(BitConverter.Int64BitsToDouble((first + i) << RestBits));
    }

    /// <summary>The curve at a positive number; beyond the ends the end holds.</summary>
    public double At(double x)
    {
        var bits = BitConverter.DoubleToInt64Bits(x);
        var place = (bits >> RestBits) - first;
        if (place < 0)
            return values[0];
        if (place >= values.Length - 1)
            return values[^1];
        var value = values[place];
        return value + ((bits & RestMask) * RestUnit * (values[place + 1] - value));
    }

    /// <summary>Each factor times the curve at <c>at + slope·x</c>, in place. One call for a whole row: where code is
    /// interpreted, calls are what costs.</summary>
    /// <param name="at">0 or more.</param>
    /// <param name="slope">0 or more.</param>
    /// <param name="x">Positive.</param>
    /// <param name="factors">As many.</param>
    public void Multiply(double at, double slope, double[] x, double[] factors)
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(factors);
        var table = values;
        var (low, last) = (first, table.Length - 1);
        for (var i = 0; i < factors.Length; i++)
        {
            var bits = BitConverter.DoubleToInt64Bits(at + slope * x[i]);
            var place = (int)((bits >> RestBits) - low);
            if (place < 0)
                factors[i] *= table[0];
            else if (place >= last)
                factors[i] *= table[last];
            else
            {
                var value = table[place];
                factors[i] *= value + ((bits & RestMask) * RestUnit * (table[place + 1] - value));
            }
        }
    }

    /// <summary>The sum of weights times the curve at <c>at + slope·x</c>.</summary>
    public double Sum(double at, double slope, double[] x, double[] weights)
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(weights);
        var table = values;
        var (low, last, sum) = (first, table.Length - 1, 0.0);
        for (var i = 0; i < weights.Length; i++)
        {
            var bits = BitConverter.DoubleToInt64Bits(at + slope * x[i]);
            var place = (int)((bits >> RestBits) - low);
            if (place < 0)
                sum += weights[i] * table[0];
            else if (place >= last)
                sum += weights[i] * table[last];
            else
            {
                var value = table[place];
                sum += weights[i] * (value + ((bits & RestMask) * RestUnit * (table[place + 1] - value)));
            }
        }
        return sum;
    }

    private static long Place(double x) => BitConverter.DoubleToInt64Bits(x) >> RestBits;
}
