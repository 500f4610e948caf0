namespace Tightcold.Procedures.Hold;

/// <summary>What is held, and where.</summary>
/// <param name="VolumeM3">Car and hoses together.</param>
/// <param name="HoseVolumeM3">Hoses and gauge set alone.</param>
/// <param name="BarometerPa">Air pressure of the place: what a vacuum can at the most be measured from.</param>
/// <param name="AmbientTemperatureK">Used where no reading carries a temperature.</param>
/// <param name="Seed">Makes the sampling repeatable.</param>
public sealed record HoldSetting(
    double VolumeM3,
    double HoseVolumeM3,
    double BarometerPa,
    double AmbientTemperatureK,
    ulong Seed
);
