using Tightcold.Properties;

namespace Tightcold.SecondWorld.Cars;

/// <summary>Refrigerant in the oil.</summary>
public static class Oil
{
    /// <summary>
    /// Kilograms of refrigerant in a kilogram of oil: rises with the pressure against saturation at the oil's
    /// temperature; some 0.16 at half of saturation, 0.43 near it (such oils with R-134a, from memory).
    /// </summary>
    public static double Dissolved(FastFluid fluid, double pressurePa, double oilC)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        var share = Math.Clamp(pressurePa / fluid.SaturationPressurePa(Math.Min(oilC + 273.15, 360)), 0, 0.9);
        return 0.22 * share / (1 - 0.6 * share);
    }
}
