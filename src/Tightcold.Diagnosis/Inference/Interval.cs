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
        var sum = sorted.Sum(pair => pair.Weight);
        return new(At(sorted, tail * sum), At(sorted, 0.5 * sum), At(sorted, (1 - tail) * sum));
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

    private static double At((double Value, double Weight)[] sorted, double weight)
    {
        // Linear between the middles of the weights, so that few heavy points do not make a staircase.
        double before = 0,
            lastMiddle = 0,
            lastValue = sorted[0].Value;
        for (var i = 0; i < sorted.Length; i++)
        {
            var middle = before + (0.5 * sorted[i].Weight);
            if (middle >= weight)
                return i == 0
                    ? sorted[0].Value
                    : lastValue + ((sorted[i].Value - lastValue) * (weight - lastMiddle) / (middle - lastMiddle));
            before += sorted[i].Weight;
            (lastMiddle, lastValue) = (middle, sorted[i].Value);
        }

        return sorted[^1].Value;
    }
}
