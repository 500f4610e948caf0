namespace Tightcold.SecondWorld.Cars;

/// <summary>The conditions of one reading.</summary>
public sealed record Setup
{
    public required double AmbientC { get; init; }

    /// <summary>Relative humidity, 0 to 1.</summary>
    public required double Humidity { get; init; }
    public required double EngineRpm { get; init; }

    /// <summary>Air of the blower, 1 = full.</summary>
    public double Blower { get; init; } = 1;
    public bool Recirculated { get; init; } = true;

    /// <summary>
    /// Share of outside air in what the blower takes when set to recirculate: 0.9 doors open, 0.25 shut.
    /// </summary>
    public double OutsideShare { get; init; } = 0.9;
    public bool FanAid { get; init; }
    public double AirPressurePa { get; init; } = 101325;
}
