namespace Tightcold.Numerics.Sampling;

/// <summary>What an evidence sampler found: ln of the evidence, points in standard-normal coordinates, and their
/// weights, which sum to 1 (all 0 when the data cannot be).</summary>
public sealed record WeightedSamples(double LogEvidence, int Dimensions, double[] Points, double[] Weights)
{
    public int Count => Weights.Length;

    public ReadOnlySpan<double> Point(int index) => Points.AsSpan(index * Dimensions, Dimensions);

    /// <summary>Effective number of samples, 1/Σw²: the more, the surer the evidence.</summary>
    public double Effective
    {
        get
        {
            var squares = 0.0;
            foreach (var weight in Weights)
                squares += weight * weight;
            return squares > 0 ? 1 / squares : 0;
        }
    }
}
