namespace Tightcold.Quantities;

/// <summary>A belief about a quantity: never a bare number. Both limits, or one of them when only a bound is
/// known, at a stated level of probability.</summary>
/// <param name="Key">A stable name for machines, in kebab-case.</param>
/// <param name="Name">What a person reads.</param>
/// <param name="Kind">What the number means.</param>
/// <param name="Median">SI; null when only a bound is known.</param>
/// <param name="Low">SI; null when unbounded below.</param>
/// <param name="High">SI; null when unbounded above.</param>
/// <param name="Level">Probability that the interval holds the truth, 0 to 1.</param>
/// <param name="Origin">Read off an instrument, computed from readings, modelled or assumed.</param>
public sealed record Estimate(
    string Key,
    Phrase Name,
    QuantityKind Kind,
    double? Median,
    double? Low,
    double? High,
    double Level,
    EstimateOrigin Origin
)
{
    public double? Median { get; } =
        Median is not { } middle || Low <= middle && middle <= High
            ? Median
            : throw new ArgumentOutOfRangeException(
                nameof(Median),
                Median,
                Check.Words($"must lie in its interval {Low:R} to {High:R}")
            );

    public double? Low { get; } =
        Low is null && High is null
            ? throw new ArgumentOutOfRangeException(nameof(Low), Low, "must be given, or the upper limit")
            : Low;

    public double Level { get; } =
        Level is > 0 and < 1
            ? Level
            : throw new ArgumentOutOfRangeException(nameof(Level), Level, "must lie between 0 and 1");

    /// <summary>z of the two-sided 90 % interval of a normal distribution.</summary>
    public const double Z90 = 1.6449;

    /// <summary>A normal belief, as its median and 90 % interval, kept at or above <paramref name="floor"/>.</summary>
    public static Estimate Normal(
        string key,
        Phrase name,
        QuantityKind kind,
        double mean,
        double standardDeviation,
        EstimateOrigin origin = EstimateOrigin.Computed,
        double floor = double.NegativeInfinity
    ) =>
        Between(
            key,
            name,
            kind,
            Math.Max(floor, mean),
            Math.Max(floor, mean - Z90 * standardDeviation),
            Math.Max(floor, mean + Z90 * standardDeviation),
            origin
        );

    /// <summary>A belief given by its median and 90 % interval.</summary>
    public static Estimate Between(
        string key,
        Phrase name,
        QuantityKind kind,
        double median,
        double low,
        double high,
        EstimateOrigin origin = EstimateOrigin.Computed,
        double level = 0.90
    )
    {
        Check.Finite(median, nameof(median));
        return new(
            key,
            name,
            kind,
            median,
            Check.Finite(low, nameof(low)),
            Check.Finite(high, nameof(high)),
            level,
            origin
        );
    }

    /// <summary>Only a lower bound is known.</summary>
    public static Estimate AtLeast(
        string key,
        Phrase name,
        QuantityKind kind,
        double low,
        EstimateOrigin origin = EstimateOrigin.Computed
    ) => new(key, name, kind, null, Check.Finite(low, nameof(low)), null, 0.95, origin);

    /// <summary>Only an upper bound is known.</summary>
    public static Estimate AtMost(
        string key,
        Phrase name,
        QuantityKind kind,
        double high,
        EstimateOrigin origin = EstimateOrigin.Computed
    ) => new(key, name, kind, null, null, Check.Finite(high, nameof(high)), 0.95, origin);
}
