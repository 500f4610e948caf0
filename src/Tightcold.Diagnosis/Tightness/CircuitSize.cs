namespace Tightcold.Diagnosis.Tightness;

/// <summary>What the gas stands in.</summary>
/// <param name="VolumeM3">Inside the car's circuit, best guess, above 0.</param>
/// <param name="VolumeSpread">Standard deviation of its logarithm: 0.15 to 0.25 until measured.</param>
/// <param name="HoseVolumeM3">Hoses and gauge set, above 0.</param>
/// <param name="OilM3">Oil inside.</param>
/// <param name="AmbientK">Air of the place, where a reading carries no temperature.</param>
public sealed record CircuitSize(
    double VolumeM3,
    double VolumeSpread,
    double HoseVolumeM3,
    double OilM3,
    double AmbientK
)
{
    /// <summary>Nothing measured: 2.5 L give or take a fifth, two hoses of 50 mL, 150 mL of oil; common
    /// practice.</summary>
    public static readonly CircuitSize Usual = new(2.5e-3, 0.2, 1e-4, 1.5e-4, 293.15);
}
