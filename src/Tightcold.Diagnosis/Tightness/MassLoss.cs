namespace Tightcold.Diagnosis.Tightness;

/// <summary>Refrigerant that went missing over a time.</summary>
/// <param name="Time">When the time ended, on the clock of all evidence: what was mended later leaked as
/// before.</param>
/// <param name="Seconds">How long it took, above 0.</param>
/// <param name="DurationSpread">Standard deviation of ln(duration).</param>
/// <param name="LostKg">Best guess; may come out slightly negative.</param>
/// <param name="SigmaKg">Its standard deviation, above 0.</param>
/// <param name="Duty">Mean drive over that time against rest at 25 °C.</param>
public readonly record struct MassLoss(
    double Time,
    double Seconds,
    double DurationSpread,
    double LostKg,
    double SigmaKg,
    double Duty
)
{
    /// <summary>Odds, against the peak of the likelihood, that it is not what it is written to be: a filling remembered
    /// wrongly; less where both ends were read. Assumed.</summary>
    public double Outlier { get; init; } = 0.02;

    /// <summary>Which side of the figure is known.</summary>
    public MassLossKnown Known { get; init; }
}
