namespace Tightcold.Procedures.Cans;

/// <summary>A can at one moment.</summary>
/// <param name="Seconds">Since it was opened.</param>
/// <param name="LeftKg">Liquid and vapour in it.</param>
/// <param name="LiquidKg">Of that, liquid.</param>
/// <param name="TemperatureK">Of contents and wall.</param>
/// <param name="PressurePa">Absolute, inside.</param>
/// <param name="SystemPa">Absolute, where it flows to.</param>
/// <param name="RateKgPerS">Leaving it.</param>
public readonly record struct CanMoment(
    double Seconds,
    double LeftKg,
    double LiquidKg,
    double TemperatureK,
    double PressurePa,
    double SystemPa,
    double RateKgPerS
);
