using Tightcold.Properties.MoistAir;

namespace Tightcold.Properties;

/// <summary>
/// Vapour pressure of pure water: over liquid by IAPWS-95 [wagner2002], over ice by R14-08 [iapwsR1408].
/// The two meet at the triple point within 4e-6 (611.6548 Pa of the equation against 611.657 Pa).
/// </summary>
public static class WaterVapour
{
    private const double MinTemperatureK = 50;

    private static readonly Fluid Water = FluidCatalog.Get("Water");

    /// <summary>Vapour pressure, Pa: over liquid from 273.16 K to the critical point, over ice from 50 K.</summary>
    /// <param name="temperatureK">Temperature, 50 K to 647.096 K.</param>
    /// <exception cref="FluidRangeException">Outside that range or not a number.</exception>
    public static double SaturationPressurePa(double temperatureK)
    {
        if (!(temperatureK >= MinTemperatureK && temperatureK <= Water.CriticalTemperatureK))
            throw new FluidRangeException(
                "Water",
                nameof(temperatureK),
                temperatureK,
                "50 to 647.096 K (below 273.16 K over ice)"
            );
        return temperatureK >= Water.MinTemperatureK
            ? Water.SaturationAtTemperature(temperatureK).PressurePa
            : IceEquation.SublimationPressurePa(temperatureK);
    }

    /// <summary>Temperature, K, at which water or (below 611.65 Pa) ice has the given vapour pressure.</summary>
    /// <param name="pressurePa">Absolute pressure, 1e-39 Pa (ice at 50 K is 1.9e-40 Pa) to the critical
    /// pressure.</param>
    /// <exception cref="FluidRangeException">Outside that range or not a number.</exception>
    public static double SaturationTemperatureK(double pressurePa)
    {
        const double MinPressurePa = 1e-39;
        if (!(pressurePa >= MinPressurePa && pressurePa <= Water.CriticalPressurePa))
            throw new FluidRangeException(
                "Water",
                nameof(pressurePa),
                pressurePa,
                "1e-39 Pa to the critical pressure, 22.064 MPa"
            );
        if (pressurePa > Water.Saturation!.MinPressurePa)
            return Water.SaturationAtPressure(pressurePa).TemperatureK;

        // ln p is nearly straight in 1/T: five steps of Newton in 1/T with a difference slope are exact from the triple
        // point to 50 K.
        var target = Math.Log(pressurePa);
        var inverse = 1 / Water.MinTemperatureK;
        for (var i = 0; i < 6; i++)
        {
            var value = Math.Log(IceEquation.SublimationPressurePa(1 / inverse));
            var step = 1e-6 * inverse;
            var slope = (Math.Log(IceEquation.SublimationPressurePa(1 / (inverse + step))) - value) / step;
            inverse += (target - value) / slope;
        }

        return Math.Min(1 / inverse, Water.MinTemperatureK);
    }
}
