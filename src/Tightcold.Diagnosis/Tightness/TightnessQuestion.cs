namespace Tightcold.Diagnosis.Tightness;

/// <summary>What "tight" is to mean for this car and person.</summary>
/// <param name="ChargeKg">Inside now, or what will be weighed in.</param>
/// <param name="ChargeSigmaKg">Its standard deviation.</param>
/// <param name="SufferingKg">Below this charge the cooling suffers.</param>
/// <param name="Seed">Makes the sampling repeatable.</param>
public sealed record TightnessQuestion(double ChargeKg, double ChargeSigmaKg, double SufferingKg, ulong Seed)
{
    /// <summary>How long it should still cool, seconds; two years unless the person says otherwise.</summary>
    public double HorizonSeconds { get; init; } = 2 * Leaks.LeakForecast.Year;

    /// <summary>Less water than this counts as dry, kg. Half a gram is what a good drier takes in many times over and
    /// what 100 mL of PAG oil holds at a fifth of its saturation; assumed.</summary>
    public double WaterLimitKg { get; init; } = 0.5e-3;

    /// <summary>A first glance takes fewer pictures of the car; the full belief is the one that is told.</summary>
    public TightnessEffort Effort { get; init; } = TightnessEffort.Full;

    /// <summary>Rate at rest above which it will not cool that long on the mean, kg/s.</summary>
    public double LineKgPerS => Math.Max(0, ChargeKg - SufferingKg) / (HorizonSeconds * Leaks.LossObservation.YearDuty);
}
