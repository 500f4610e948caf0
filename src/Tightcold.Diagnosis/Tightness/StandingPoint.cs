namespace Tightcold.Diagnosis.Tightness;

/// <summary>A standing pressure of a car that was at rest long enough.</summary>
/// <param name="Time">On the clock of all evidence.</param>
/// <param name="PressurePa">Absolute.</param>
/// <param name="TemperatureK">Of the parts.</param>
/// <param name="PressureSigmaPa">Standard deviation of one reading against another of the same gauge.</param>
public readonly record struct StandingPoint(
    double Time,
    double PressurePa,
    double TemperatureK,
    double PressureSigmaPa
);
