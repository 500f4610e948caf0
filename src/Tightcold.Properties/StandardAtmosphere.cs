namespace Tightcold.Properties;

/// <summary>
/// The standard atmosphere (U.S. Standard Atmosphere [atmosphere1976], same as ISO 2533) up to 11 km: temperature falls
/// by 6.5 K per kilometre of geopotential altitude from 288.15 K and 101 325 Pa. A weather forecast's pressure at the
/// place is better than this; this is better than sea level.
/// </summary>
public static class StandardAtmosphere
{
    private const double SeaLevelPressurePa = 101325;
    private const double SeaLevelTemperatureK = 288.15;
    private const double LapseKPerM = 0.0065;

    // g0 M / (R L) with g0 = 9.80665 m/s2, M = 0.0289644 kg/mol, R = 8.31432 J/(mol K).
    private const double Exponent = 9.80665 * 0.0289644 / (8.31432 * LapseKPerM);
    private const double MinAltitudeM = -1000;
    private const double MaxAltitudeM = 11000;

    /// <summary>Air pressure at a geopotential altitude of -1000 m to 11 000 m, Pa.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range or not a number.</exception>
    public static double PressurePa(double altitudeM)
    {
        if (!(altitudeM >= MinAltitudeM && altitudeM <= MaxAltitudeM))
            throw new ArgumentOutOfRangeException(
                nameof(altitudeM),
                altitudeM,
                "Altitude of -1000 to 11000 m is wanted."
            );
        return SeaLevelPressurePa * Math.Pow(1 - (LapseKPerM * altitudeM / SeaLevelTemperatureK), Exponent);
    }

    /// <summary>Geopotential altitude, m, at which the standard atmosphere has the given pressure.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Pressure outside that of -1000 m to 11 000 m, or not a
    /// number.</exception>
    public static double AltitudeM(double pressurePa)
    {
        if (
            !(
                pressurePa >= PressurePa(MaxAltitudeM) * (1 - 1e-12)
                && pressurePa <= PressurePa(MinAltitudeM) * (1 + 1e-12)
            )
        )
            throw new ArgumentOutOfRangeException(
                nameof(pressurePa),
                pressurePa,
                "A pressure of about 22632 to 113929 Pa is wanted."
            );
        return SeaLevelTemperatureK / LapseKPerM * (1 - Math.Pow(pressurePa / SeaLevelPressurePa, 1 / Exponent));
    }
}
