namespace Tightcold.Numerics.Sampling;

/// <summary>Quantiles of samples in rising order.</summary>
public static class Quantile
{
    /// <summary>Of samples that count alike: as many lie below it as the share of all holds whole ones, and above the
    /// middle as many above it; so the ends of an interval mirror each other. Of an even number the middle is the upper
    /// of two.</summary>
    /// <param name="sorted">One or more, rising.</param>
    /// <param name="share">0 to 1.</param>
    public static double Of(ReadOnlySpan<double> sorted, double share)
    {
        var outside = Math.Min((int)(Math.Min(share, 1 - share) * sorted.Length), sorted.Length - 1);
        return sorted[share <= 0.5 ? outside : sorted.Length - 1 - outside];
    }

    /// <summary>Of weighted samples: the first with which their weight reaches the share of all weight.</summary>
    /// <param name="sorted">One or more, rising.</param>
    /// <param name="weights">As many, none below 0; they need not sum to 1.</param>
    /// <param name="share">0 to 1.</param>
    public static double Of(ReadOnlySpan<double> sorted, ReadOnlySpan<double> weights, double share)
    {
        var total = 0.0;
        foreach (var weight in weights)
            total += weight;
        var reached = 0.0;
        for (var i = 0; i < sorted.Length; i++)
            if ((reached += weights[i]) >= share * total)
                return sorted[i];
        return sorted[^1];
    }

    /// <summary>Of weighted samples, straight between the middles of their weights: few heavy samples then make no
    /// staircase.</summary>
    /// <param name="sorted">One or more, rising.</param>
    /// <param name="weights">As many, each above 0; they need not sum to 1.</param>
    /// <param name="share">0 to 1.</param>
    public static double Straight(ReadOnlySpan<double> sorted, ReadOnlySpan<double> weights, double share)
    {
        var total = 0.0;
        foreach (var weight in weights)
            total += weight;
        double before = 0,
            lastMiddle = 0,
            lastValue = sorted[0];
        for (var i = 0; i < sorted.Length; i++)
        {
            var middle = before + (0.5 * weights[i]);
            if (middle >= share * total)
                return i == 0
                    ? sorted[0]
                    : lastValue + ((sorted[i] - lastValue) * ((share * total) - lastMiddle) / (middle - lastMiddle));
            before += weights[i];
            (lastMiddle, lastValue) = (middle, sorted[i]);
        }

        return sorted[^1];
    }
}
