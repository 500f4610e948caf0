namespace Tightcold.Procedures.Standing;

/// <summary>One standing pressure with what is known about it.</summary>
/// <param name="PressurePa">Absolute, the mean of both sides at rest.</param>
/// <param name="PressureSigmaPa">Standard deviation.</param>
/// <param name="TemperatureK">Coldest part of the circuit: where liquid would be.</param>
/// <param name="TemperatureSigmaK">Standard deviation, soak included.</param>
public readonly record struct StandingReading(
    double PressurePa,
    double PressureSigmaPa,
    double TemperatureK,
    double TemperatureSigmaK
);
