namespace Tightcold.Procedures.Hold;

/// <summary>One reading while the pump is shut off.</summary>
/// <param name="SecondsSinceStart">Time since the first reading.</param>
/// <param name="PressurePa">Absolute, as the gauge shows it.</param>
/// <param name="StepPa">Smallest step of the gauge: the truth lies within half a step of the reading.</param>
/// <param name="ScatterPa">Standard deviation between readings of one gauge, without the step; above 0.</param>
/// <param name="TemperatureK">Of the parts; null when not taken.</param>
public readonly record struct HoldReading(
    double SecondsSinceStart,
    double PressurePa,
    double StepPa,
    double ScatterPa,
    double? TemperatureK
);
