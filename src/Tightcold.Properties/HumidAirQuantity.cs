namespace Tightcold.Properties;

/// <summary>What may be known about moist air, besides its pressure. SI units; ratios from 0 to 1.</summary>
public enum HumidAirQuantity
{
    /// <summary>Dry-bulb temperature, K.</summary>
    DryBulb,

    /// <summary>Thermodynamic wet-bulb temperature, K.</summary>
    WetBulb,

    /// <summary>Dew point, K; frost point below 273.16 K.</summary>
    DewPoint,

    /// <summary>Relative humidity, 0 to 1.</summary>
    RelativeHumidity,

    /// <summary>Humidity ratio, kg water per kg dry air.</summary>
    HumidityRatio,

    /// <summary>Enthalpy, J per kg dry air.</summary>
    Enthalpy,
}
