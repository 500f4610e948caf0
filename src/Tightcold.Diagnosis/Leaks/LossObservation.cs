namespace Tightcold.Diagnosis.Leaks;

/// <summary>Refrigerant that went missing over a time, whatever the joints.</summary>
/// <param name="LostKg">Best guess of the mass; may come out slightly negative.</param>
/// <param name="SigmaKg">Its standard deviation.</param>
/// <param name="Seconds">How long it took.</param>
/// <param name="DurationSpread">Standard deviation of ln(duration): 0 when both dates are written down.</param>
/// <param name="Duty">Mean drive over that time against rest at 25 °C.</param>
/// <param name="AfterRepair">Measured after the repairs, so it speaks of what remains.</param>
public readonly record struct LossObservation(
    double LostKg,
    double SigmaKg,
    double Seconds,
    double DurationSpread,
    double Duty,
    bool AfterRepair
)
{
    /// <summary>A parked car through the year against rest at 25 °C (15 °C mean: about 0.5), with some driving;
    /// assumed.</summary>
    public const double YearDuty = 0.7;

    /// <summary>Leaks grow, seals close in summer: a steady rate is true to about a third; assumed.</summary>
    public const double Unsteadiness = 0.35;

    /// <summary>ln of the likelihood of this loss for a total rate at rest, kg/s.</summary>
    public double LogLikelihood(double totalKgPerS)
    {
        var expected = totalKgPerS * Duty * Seconds;
        var spread = Math.Sqrt(DurationSpread * DurationSpread + Unsteadiness * Unsteadiness);
        if (LostKg > 2 * SigmaKg)
        {
            var relative = SigmaKg / LostKg;
            return -0.5 * Math.Pow(Math.Log(LostKg / expected), 2) / (spread * spread + relative * relative);
        }
        var variance = SigmaKg * SigmaKg + spread * spread * expected * expected;
        return -0.5 * Math.Pow(LostKg - expected, 2) / variance - 0.5 * Math.Log(variance / (SigmaKg * SigmaKg));
    }
}
