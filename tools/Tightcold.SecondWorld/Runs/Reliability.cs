namespace Tightcold.SecondWorld.Runs;

/// <summary>Odds said against how it was, in ten bins, each case with a weight.</summary>
internal sealed class Reliability
{
    private const int Bins = 10;
    private readonly double[] said = new double[Bins];
    private readonly double[] was = new double[Bins];
    private readonly double[] weight = new double[Bins];

    public void Add(double odds, bool so, double weighs = 1)
    {
        var bin = Math.Clamp((int)(odds * Bins), 0, Bins - 1);
        said[bin] += weighs * odds;
        was[bin] += so ? weighs : 0;
        weight[bin] += weighs;
    }

    /// <summary>Mean distance of said from was over the bins, by their weight.</summary>
    public double Error
    {
        get
        {
            double sum = 0,
                all = 0;
            for (var i = 0; i < Bins; i++)
            {
                sum += Math.Abs(said[i] - was[i]);
                all += weight[i];
            }
            return all > 0 ? sum / all : 0;
        }
    }

    /// <summary>The bins in one line.</summary>
    public string Words() =>
        string.Join(", ", Lines().Select(line => $"{line.Said:F2}→{line.Was:F2} ({line.Weight:F0})"));

    public IEnumerable<(double Said, double Was, double Weight)> Lines()
    {
        for (var i = 0; i < Bins; i++)
            if (weight[i] > 0)
                yield return (said[i] / weight[i], was[i] / weight[i], weight[i]);
    }
}
