using Tightcold.Numerics.Sampling;

namespace Tightcold.Diagnosis.Inference;

/// <summary>A median and the limits between which nine tenths of the belief lie.</summary>
public readonly record struct Interval(double Low, double Median, double High)
{
    /// <summary>Of weighted values; weights need not sum to 1.</summary>
    internal static Interval Of(IReadOnlyList<(double Value, double Weight)> weighted, double tail = 0.05)
    {
        var sorted = weighted.Where(pair => pair.Weight > 0).OrderBy(pair => pair.Value).ToArray();
        if (sorted.Length == 0)
            return default;
        var values = Array.ConvertAll(sorted, pair => pair.Value);
        var weights = Array.ConvertAll(sorted, pair => pair.Weight);
        double At(double share) => Quantile.Straight(values, weights, share);
        return new(At(tail), At(0.5), At(1 - tail));
    }

    /// <summary>Share of the weight below a value.</summary>
    internal static double ShareBelow(IReadOnlyList<(double Value, double Weight)> weighted, double value)
    {
        double below = 0,
            sum = 0;
        foreach (var (at, weight) in weighted)
        {
            sum += weight;
            if (at < value)
                below += weight;
        }

        return sum > 0 ? below / sum : 0.5;
    }
}
