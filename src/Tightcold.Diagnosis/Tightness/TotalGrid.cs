using Tightcold.Diagnosis.Leaks;

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

    /// <summary>Places narrower than a bin, which are told from a number's own bits: no logarithm is taken. The bin at the
    /// start of each.</summary>
    private const int RestBits = 52 - 5;
    private static readonly long FirstPlace = BitConverter.DoubleToInt64Bits(Edges[0]) >> RestBits;
    private static readonly int[] Bins =
    [
        .. Enumerable
            .Range(0, (int)((BitConverter.DoubleToInt64Bits(Edges[^1]) >> RestBits) - FirstPlace) + 1)
            .Select(place => StartsIn(BitConverter.Int64BitsToDouble((FirstPlace + place) << RestBits))),
    ];

    private static int StartsIn(double rate)
    {
        var bin = 0;
        while (bin < Count - 1 && rate >= Edges[bin + 1])
            bin++;
        return bin;
    }

    /// <summary>Puts each weight into the bin of the rate <c>at + slope·x</c>; the bins at the ends take in what lies
    /// beyond. One call for a whole row: where code is interpreted, calls are what costs.</summary>
    public static void Add(double[] bins, double at, double slope, double[] x, double[] weights)
    {
        var (edges, starts, first) = (Edges, Bins, FirstPlace);
        for (var i = 0; i < weights.Length; i++)
        {
            var rate = at + slope * x[i];
            var place = (int)((BitConverter.DoubleToInt64Bits(rate) >> RestBits) - first);
            var bin =
                place < 0 ? 0
                : place >= starts.Length ? Count - 1
                : starts[place];
            // A place is narrower than a bin: its end may lie in the next one.
            if (bin < Count - 1 && rate >= edges[bin + 1])
                bin++;
            bins[bin] += weights[i];
        }
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
