namespace Tightcold.Diagnosis.Inference;

/// <summary>
/// Whether a car that fits badly so far is run at the points that are left. The worse, the seldomer; those kept count
/// for the ones that were dropped, so that the evidence stays right in the mean (Russian roulette; Kahn 1956, in:
/// Meyer, ed., Symposium on Monte Carlo Methods, 146).
/// </summary>
internal sealed class Roulette(int points, ulong seed)
{
    // Within e^-Free of the best car so far all are kept; then a factor e fewer for every Fall nats, down to Least.
    private const double Free = 6;
    private const double Fall = 2;
    private const double Least = 0.03;

    private readonly Chance chance = new(seed ^ 0x5DEECE66DUL);
    private readonly double[] best = [.. Enumerable.Repeat(double.NegativeInfinity, points)];

    /// <param name="point">The point just run.</param>
    /// <param name="log">ln of the likelihood of everything up to it.</param>
    /// <param name="kept">Chance with which the car came this far; lowered here.</param>
    public bool Keeps(int point, double log, ref double kept)
    {
        best[point] = Math.Max(best[point], log);
        var wanted = Math.Clamp(Math.Exp((log - best[point] + Free) / Fall), Least, kept);
        if (wanted >= kept)
            return true;
        var stays = chance.Uniform() < wanted / kept;
        kept = wanted;
        return stays;
    }
}
