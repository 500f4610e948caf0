namespace Tightcold.Diagnosis.Tightness;

/// <summary>One reading of a pressure test.</summary>
/// <param name="SecondsSinceStart">Since the first reading.</param>
/// <param name="PressurePa">Absolute.</param>
/// <param name="TemperatureK">Of parts or air; null when not taken.</param>
public readonly record struct NitrogenReading(double SecondsSinceStart, double PressurePa, double? TemperatureK);
