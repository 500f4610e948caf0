namespace Tightcold.Procedures.Cold;

/// <summary>Even spreading without chance: the same car number gives the same car, so the same journal the same
/// band.</summary>
public static class Spread
{
    public static double Between(double low, double high, int sample, int @base) =>
        low + (high - low) * Halton(sample, @base);

    /// <summary>Low-discrepancy sequence in [0,1): the digits of <paramref name="index"/> mirrored about the
    /// point.</summary>
    /// <param name="index">0 or more.</param>
    /// <param name="base">A prime.</param>
    public static double Halton(int index, int @base)
    {
        double result = 0,
            share = 1;
        for (; index > 0; index /= @base)
        {
            share /= @base;
            result += share * (index % @base);
        }
        return result;
    }
}
