using Tightcold.Numerics.Roots;
using Tightcold.Properties;

namespace Tightcold.Procedures.Charging;

/// <summary>How much a recovery cylinder may hold.</summary>
public static class CylinderFill
{
    /// <summary>Where the 80 % are counted: 25 °C (77 °F).</summary>
    public const double ReferenceK = 273.15 + 25;

    /// <summary>Water at 25 °C, kg/m³: the stamped water capacity is its mass. Source: IAPWS-95, 997.05.</summary>
    private const double WaterDensity = 997.05;

    /// <summary>
    /// Most net mass, kg: 80 % of the volume with liquid at 25 °C (77 °F): 0.8·WC·ρ_liquid/ρ_water. Source: the
    /// industry guideline's 80 % rule at 77 °F (common practice; a stricter filling table may bind locally).
    /// The habit of leaving the density out would overfill R-152a.
    /// </summary>
    /// <param name="hottestK">Where the cylinder will stand hotter than 25 °C: 80 % is then counted there;
    /// less.</param>
    public static double MostNetKg(Fluid fluid, double waterCapacityKg, double hottestK = ReferenceK) =>
        0.8
        * waterCapacityKg
        * fluid.SaturationAtTemperature(Math.Max(ReferenceK, hottestK)).LiquidDensityKgPerM3
        / WaterDensity;

    /// <summary>The field rule without the density, kg: 0.8·WC. Common practice.</summary>
    public static double FieldRuleKg(double waterCapacityKg) => 0.8 * waterCapacityKg;

    /// <summary>Share of the cylinder that liquid fills at <paramref name="temperatureK"/>, 0 to 1 or above
    /// (burst).</summary>
    public static double LiquidShare(Fluid fluid, double waterCapacityKg, double netKg, double temperatureK) =>
        netKg / (waterCapacityKg / WaterDensity * fluid.SaturationAtTemperature(temperatureK).LiquidDensityKgPerM3);

    /// <summary>Temperature at which liquid fills the cylinder to the last corner, from where it bursts; null when that
    /// lies above <paramref name="highestK"/>. Liquid swells on the way, so there is one such point.</summary>
    public static double? FullAtK(Fluid fluid, double waterCapacityKg, double netKg, double highestK = 273.15 + 85)
    {
        double low = 223.15,
            high = Math.Min(highestK, fluid.CriticalTemperatureK - 0.5);
        if (LiquidShare(fluid, waterCapacityKg, netKg, high) < 1)
            return null;
        if (LiquidShare(fluid, waterCapacityKg, netKg, low) >= 1)
            return low;
        return BracketedRoot.Nearest(
            kelvins => LiquidShare(fluid, waterCapacityKg, netKg, kelvins) - 1,
            low,
            high,
            1e-9
        );
    }
}
