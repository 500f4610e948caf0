namespace Tightcold.Diagnosis.Measurement;

/// <summary>What was recovered and weighed after these readings, as a charge.</summary>
/// <param name="ChargeKg">With what stays in the oil added.</param>
/// <param name="SigmaKg">Standard deviation.</param>
public readonly record struct WeighedCharge(double ChargeKg, double SigmaKg);
