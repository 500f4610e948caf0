namespace Tightcold.Diagnosis.Leaks;

/// <summary>How long the charge will last.</summary>
/// <param name="Seconds">Until the charge has fallen to where cooling suffers; capped at <see cref="Horizon"/>.</param>
/// <param name="NextCheckSeconds">When to look again: while only one car in ten like this would have fallen so far,
/// between one month and two years.</param>
/// <param name="LostPerYearKg">At the present rate, over a year of ordinary use.</param>
public readonly record struct LeakForecast(LeakQuantiles Seconds, double NextCheckSeconds, LeakQuantiles LostPerYearKg)
{
    public const double Year = 365.25 * 86400;

    /// <summary>No forecast looks further.</summary>
    public const double Horizon = 20 * Year;

    /// <summary>Share of the label charge below which cooling suffers: with an expansion valve and receiver the charge
    /// plateau reaches down to about 0.55 of the label; an orifice tube suffers from about 0.75. Modelled.</summary>
    public static double SufferingShare(bool orificeTube) => orificeTube ? 0.75 : 0.55;

    /// <param name="samples">Weighted rates at rest, kg/s.</param>
    public static LeakForecast Of(
        IEnumerable<(double KgPerS, double Weight)> samples,
        double chargeKg,
        double sufferingKg
    )
    {
        var all = samples.ToArray();
        var room = Math.Max(0, chargeKg - sufferingKg);
        var times = LeakQuantiles.Of(
            all.Select(sample => (Math.Min(Horizon, room / (sample.KgPerS * LossObservation.YearDuty)), sample.Weight))
        );
        var early = Early(
            all.Select(sample => (Math.Min(Horizon, room / (sample.KgPerS * LossObservation.YearDuty)), sample.Weight))
        );
        var month = Year / 12;
        return new(
            times,
            Math.Clamp(early, month, 24 * month),
            LeakQuantiles.Of(all.Select(sample => (sample.KgPerS * LossObservation.YearDuty * Year, sample.Weight)))
        );
    }

    private static double Early(IEnumerable<(double Value, double Weight)> samples)
    {
        var sorted = samples.OrderBy(sample => sample.Value).ToArray();
        var reached = 0.0;
        foreach (var (value, weight) in sorted)
            if ((reached += weight) >= 0.10)
                return value;
        return Horizon;
    }
}
