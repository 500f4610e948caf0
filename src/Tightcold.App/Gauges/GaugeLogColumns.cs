namespace Tightcold.App.Gauges;

/// <summary>Which columns of a gauge's log hold what, as its owner names them.</summary>
/// <param name="Time">A time of day, a date and time, or a number of seconds or minutes since the start.</param>
/// <param name="TimeUnit">s or min when the column holds numbers; null when it holds times.</param>
/// <param name="Pressure">The column of pressures.</param>
/// <param name="PressureUnit">micron, mbar, Pa, Torr… for an absolute gauge; inHg vacuum and the like for a
/// dial.</param>
/// <param name="Temperature">Of the parts; or null.</param>
/// <param name="TemperatureUnit">°C or °F.</param>
/// <param name="Start">When the log began, for numbers and times of day.</param>
/// <param name="PumpValveShut">Whether the valve to the pump was shut: a hold; else a pump-down.</param>
/// <param name="HosesAlone">Hoses and gauges held without the car.</param>
public sealed record GaugeLogColumns(
    string Time,
    string? TimeUnit,
    string Pressure,
    string PressureUnit,
    string? Temperature,
    string? TemperatureUnit,
    DateTimeOffset Start,
    bool PumpValveShut,
    bool HosesAlone
);
