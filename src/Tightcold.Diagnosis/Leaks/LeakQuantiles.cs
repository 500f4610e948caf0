using Tightcold.Numerics.Sampling;

namespace Tightcold.Diagnosis.Leaks;

/// <summary>Five points of a belief: 5, 25, 50, 75 and 95 %.</summary>
public readonly record struct LeakQuantiles(double P05, double P25, double P50, double P75, double P95)
{
    /// <summary>Weighted quantiles; all 0 when nothing carries weight.</summary>
    public static LeakQuantiles Of(IEnumerable<(double Value, double Weight)> samples)
    {
        var kept = samples.Where(sample => sample.Weight > 0).ToArray();
        var values = Array.ConvertAll(kept, sample => sample.Value);
        var weights = Array.ConvertAll(kept, sample => sample.Weight);
        Array.Sort(values, weights);
        if (!(weights.Sum() > 0))
            return default;
        double At(double share) => Quantile.Of(values, weights, share);
        return new(At(0.05), At(0.25), At(0.5), At(0.75), At(0.95));
    }
}
