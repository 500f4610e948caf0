namespace Tightcold.Properties;

/// <summary>Moist air at one temperature, pressure and water content. SI units, absolute pressure; below 0 °C humidity
/// and dew point are over ice.</summary>
public readonly record struct HumidAirState
{
    /// <summary>Dry-bulb temperature, K.</summary>
    public required double TemperatureK { get; init; }

    /// <summary>Barometric pressure, Pa.</summary>
    public required double PressurePa { get; init; }

    /// <summary>Mass of water vapour over mass of dry air.</summary>
    public required double HumidityRatio { get; init; }

    /// <summary>Water over the water of saturated air at the same temperature and pressure, 0 to 1.</summary>
    public required double RelativeHumidity { get; init; }

    /// <summary>Enthalpy per kilogram of dry air; zero for dry air at 0 °C and liquid water at its triple
    /// point.</summary>
    public required double EnthalpyJPerKgDryAir { get; init; }

    /// <summary>Thermodynamic wet-bulb temperature, K. Around 0 °C, where wet and frozen wick both balance, the wet
    /// one.</summary>
    public required double WetBulbK { get; init; }

    /// <summary>Dew point (below 273.16 K frost point), K; null for air drier than the lowest frost point served,
    /// 173.15 K.</summary>
    public required double? DewPointK { get; init; }

    /// <summary>Volume of the moist air that holds a kilogram of dry air, m3.</summary>
    public required double VolumeM3PerKgDryAir { get; init; }
}
