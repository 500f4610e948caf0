namespace Tightcold.Procedures.Vacuum;

/// <summary>A vacuum reading in absolute terms.</summary>
/// <param name="SecondsSinceStart">Time.</param>
/// <param name="PressurePa">Absolute pressure; a dial's reading has the barometer added.</param>
/// <param name="SigmaPa">Standard deviation of one reading, offset included.</param>
/// <param name="RepeatSigmaPa">Scatter between readings of the same gauge: its fixed offset cancels in a rise.</param>
/// <param name="TemperatureK">Of the parts; null when not taken.</param>
public readonly record struct VacuumReading(
    double SecondsSinceStart,
    double PressurePa,
    double SigmaPa,
    double RepeatSigmaPa,
    double? TemperatureK
);
