using Tightcold.Diagnosis.Leaks;
using Tightcold.Numerics.Interpolation;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Fine bins for the rate of a whole car, kg/s, from a tenth of a gram to ten tonnes a year.</summary>
internal static class TotalGrid
{
    public const int Count = 240;
    private static readonly double LogLeast = Math.Log(0.1 * LeakPrior.GramPerYear);
    private static readonly double StepLog = Math.Log(1e8) / Count;

    private static readonly double[] Edges =
    [
        .. Enumerable.Range(0, Count + 1).Select(i => Math.Exp(LogLeast + i * StepLog)),
    ];

    /// <summary>The bin at the start of each of the narrow places, which are told from a number's own bits: no logarithm is
    /// taken.</summary>
    private static readonly OctaveTable Bin = new(Edges[0], Edges[^1], rate =>
        Math.Clamp((int)((Math.Log(rate) - LogLeast) / StepLog), 0, Count - 1)
    );

    /// <summary>The bin of a rate; those at the ends take in what lies beyond.</summary>
    public static int At(double kgPerS)
    {
        var bin = (int)Bin.At(kgPerS);
        // Straight between two places, the table may lie a bin off at an edge.
        while (bin < Count - 1 && kgPerS >= Edges[bin + 1])
            bin++;
        while (bin > 0 && kgPerS < Edges[bin])
            bin--;
        return bin;
    }

    public static double Middle(int i) => Math.Exp(LogLeast + (i + 0.5) * StepLog);

    /// <summary>Five points of the belief, straight within a bin.</summary>
    /// <param name="zero">Weight of a rate of nothing at all.</param>
    public static LeakQuantiles Quantiles(double[] weights, double zero = 0)
    {
        var total = weights.Sum() + zero;
        if (!(total > 0))
            return default;
        double At(double share)
        {
            var reached = zero;
            if (reached >= share * total)
                return 0;
            for (var i = 0; i < Count; i++)
            {
                if (reached + weights[i] >= share * total)
                    return Math.Exp(LogLeast + (i + (share * total - reached) / weights[i]) * StepLog);
                reached += weights[i];
            }
            return Middle(Count - 1);
        }
        return new(At(0.05), At(0.25), At(0.5), At(0.75), At(0.95));
    }
}
