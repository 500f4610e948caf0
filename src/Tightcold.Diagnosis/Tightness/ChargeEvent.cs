namespace Tightcold.Diagnosis.Tightness;

/// <summary>What went in, or was known to be inside, once.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Time">On the clock of all evidence; before the job it is negative.</param>
/// <param name="TimeSpread">Standard deviation of ln(time until now): 0 when the date is written down.</param>
/// <param name="Kilograms">Best guess.</param>
/// <param name="SigmaKg">Its standard deviation.</param>
public readonly record struct ChargeEvent(
    ChargeEventKind Kind,
    double Time,
    double TimeSpread,
    double Kilograms,
    double SigmaKg
);
