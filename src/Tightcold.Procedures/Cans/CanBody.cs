using Tightcold.Properties;

namespace Tightcold.Procedures.Cans;

/// <summary>A can or cylinder as a vessel.</summary>
/// <param name="InnerVolumeM3">Inner volume, m³, above 0.</param>
/// <param name="WallHeatCapacityJPerK">Heat capacity of the wall that follows the liquid's temperature, J/K.</param>
public readonly record struct CanBody(double InnerVolumeM3, double WallHeatCapacityJPerK)
{
    /// <summary>Steel near room temperature, J/(kg K); textbook value.</summary>
    private const double SteelJPerKgK = 460;

    /// <summary>A small can's sheet weighs about a fifth to a third of what it holds; common practice.</summary>
    private const double WallShareOfNet = 0.25;

    /// <summary>Liquid fills this share of a can as sold, at 25 °C; common practice.</summary>
    public const double LiquidShareAsSold = 0.83;

    public static CanBody OfSteel(double innerVolumeM3, double wallKg) => new(innerVolumeM3, wallKg * SteelJPerKgK);

    /// <summary>A can known only by what it was sold with: so large that the net fills 83 % of it with liquid at 25
    /// °C.</summary>
    public static CanBody Sold(Fluid fluid, double netKg, double? tareKg, double? innerVolumeM3 = null) =>
        OfSteel(
            innerVolumeM3 ?? netKg / (LiquidShareAsSold * fluid.SaturationAtTemperature(298.15).LiquidDensityKgPerM3),
            tareKg ?? WallShareOfNet * netKg
        );
}
