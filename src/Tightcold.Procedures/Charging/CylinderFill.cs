using Tightcold.Properties;

namespace Tightcold.Procedures.Charging;

/// <summary>How much a recovery cylinder may hold.</summary>
public static class CylinderFill
{
    private const double ReferenceK = 273.15 + 25;

    /// <summary>Water at 25 °C, kg/m³: the stamped water capacity is its mass. Source: IAPWS-95, 997.05.</summary>
    private const double WaterDensity = 997.05;

    /// <summary>
    /// Most net mass, kg: 80 % of the volume with liquid at 25 °C (77 °F): 0.8·WC·ρ_liquid/ρ_water. Source: the
    /// industry guideline's 80 % rule at 77 °F (common practice; a stricter filling table may bind locally).
    /// The habit of leaving the density out would overfill R-152a.
    /// </summary>
    public static double MostNetKg(Fluid fluid, double waterCapacityKg) =>
        0.8 * waterCapacityKg * fluid.SaturationAtTemperature(ReferenceK).LiquidDensityKgPerM3 / WaterDensity;

    /// <summary>Share of the cylinder that liquid fills at <paramref name="temperatureK"/>, 0 to 1 or above (burst).</summary>
    public static double LiquidShare(Fluid fluid, double waterCapacityKg, double netKg, double temperatureK) =>
        netKg / (waterCapacityKg / WaterDensity * fluid.SaturationAtTemperature(temperatureK).LiquidDensityKgPerM3);
}
