namespace Tightcold.Diagnosis.Measurement;

/// <summary>Both sides at rest, at one temperature.</summary>
/// <param name="PressurePa">Absolute.</param>
/// <param name="SigmaPa">Standard deviation of the gauges.</param>
/// <param name="TemperatureK">Coldest part, 278 to 325 K.</param>
/// <param name="TemperatureSigmaK">Standard deviation, soak included.</param>
public readonly record struct StandingPressure(
    double PressurePa,
    double SigmaPa,
    double TemperatureK,
    double TemperatureSigmaK
);
