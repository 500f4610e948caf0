namespace Tightcold.Diagnosis.Leaks;

/// <summary>Weighted pictures of the whole car: which spots leak, how much, before and after the repairs.</summary>
internal sealed class LeakParticles(int count, int spots)
{
    public int Count { get; } = count;
    public int Spots { get; } = spots;
    public double[] Weights { get; } = new double[count];

    /// <summary>Rate as an index into <see cref="SpotGrid.Rates"/>.</summary>
    public byte[] Before { get; } = new byte[count * spots];
    public byte[] After { get; } = new byte[count * spots];
    public bool[] LeaksBefore { get; } = new bool[count * spots];
    public bool[] LeaksAfter { get; } = new bool[count * spots];
    public double[] TotalBefore { get; } = new double[count];
    public double[] TotalAfter { get; } = new double[count];
}
