namespace Tightcold.Loop.Air;

/// <summary>
/// Moist air in closed form, fast enough for the inner loop: the Magnus formula over water and ideal mixing.
/// Within 0.6 % in humidity ratio and 1 % in enthalpy of the real-gas formulation from 0 to 50 °C (tested against it).
/// Frost is not told from dew: below 0 °C the formula over water is continued.
/// </summary>
internal static class MoistAirLaw
{
    public const double AirCp = 1006;
    public const double SteamCp = 1860;
    public const double WaterCp = 4186;
    public const double VaporisationAtZero = 2.501e6;
    public const double Zero = 273.15;

    // Mass ratio of water to dry air, 18.015/28.966.
    private const double MassRatio = 0.62195;

    // Water dissolves into air a little better than into vacuum: the enhancement factor at 1 bar, 10 to 40 °C.
    private const double Enhancement = 1.0045;

    // Keeps the ratio finite at low air pressure and great heat.
    private const double HighestShare = 0.6;

    /// <summary>Saturation pressure of water, Pa (Magnus form with the constants of Sonntag 1990).</summary>
    public static double SaturationPressurePa(double temperatureK)
    {
        var t = temperatureK - Zero;
        return 611.2 * Math.Exp(17.62 * t / (t + 243.12));
    }

    /// <summary>Saturated humidity ratio, kg/kg dry air.</summary>
    public static double SaturatedRatio(double temperatureK, double pressurePa) =>
        Ratio(SaturationPressurePa(temperatureK) * Enhancement, pressurePa);

    public static double Ratio(double relativeHumidity, double temperatureK, double pressurePa) =>
        Ratio(relativeHumidity * SaturationPressurePa(temperatureK) * Enhancement, pressurePa);

    /// <summary>Enthalpy, J/kg dry air, from 0 °C.</summary>
    public static double Enthalpy(double temperatureK, double ratio)
    {
        var t = temperatureK - Zero;
        return (AirCp * t) + (ratio * (VaporisationAtZero + (SteamCp * t)));
    }

    public static double TemperatureK(double enthalpy, double ratio) =>
        Zero + ((enthalpy - (ratio * VaporisationAtZero)) / (AirCp + (SteamCp * ratio)));

    /// <summary>Saturated enthalpy and its slope with temperature, J/kg and J/(kg K).</summary>
    public static double SaturatedEnthalpy(double temperatureK, double pressurePa, out double slope, out double ratio)
    {
        var t = temperatureK - Zero;
        var water = SaturationPressurePa(temperatureK) * Enhancement;
        ratio = Ratio(water, pressurePa);
        // d ln(pws)/dT of the Magnus form.
        var relative = 17.62 * 243.12 / ((t + 243.12) * (t + 243.12));
        var ratioSlope = ratio * relative * (1 + (ratio / MassRatio));
        slope = AirCp + (ratioSlope * (VaporisationAtZero + (SteamCp * t))) + (ratio * SteamCp);
        return Enthalpy(temperatureK, ratio);
    }

    private static double Ratio(double waterPa, double pressurePa)
    {
        var share = Math.Min(waterPa / pressurePa, HighestShare);
        return MassRatio * share / (1 - share);
    }
}
