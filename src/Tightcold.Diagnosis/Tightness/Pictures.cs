namespace Tightcold.Diagnosis.Tightness;

/// <summary>Weighted pictures of the whole car, drawn from the belief so that each counts the same.</summary>
internal sealed class Pictures(int count, int spots)
{
    public int Count { get; } = count;
    public int Spots { get; } = spots;

    /// <summary>Rates at rest, kg/s, picture by picture: before any repair, and now.</summary>
    public double[] Before { get; } = new double[count * spots];
    public double[] Now { get; } = new double[count * spots];

    /// <summary>Beyond the kind's seep.</summary>
    public bool[] LeaksBefore { get; } = new bool[count * spots];
    public bool[] LeaksNow { get; } = new bool[count * spots];

    /// <summary>Law of flow taken for what only seeps.</summary>
    public const double LawOfSeeps = 0.5;

    /// <summary>Law of flow of each leak, whether it shuts under vacuum, opens only running.</summary>
    public double[] Law { get; } = new double[count * spots];
    public bool[] Shuts { get; } = new bool[count * spots];
    public bool[] Runs { get; } = new bool[count * spots];
    public double[] LogVolume { get; } = new double[count];

    /// <summary>Sum over the car, hoses and gauge set left out.</summary>
    public double[] TotalBefore { get; } = new double[count];
    public double[] TotalNow { get; } = new double[count];
}
