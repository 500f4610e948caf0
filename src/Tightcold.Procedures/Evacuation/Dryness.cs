using Tightcold.Numerics.Distributions;
using Tightcold.Properties;

namespace Tightcold.Procedures.Evacuation;

/// <summary>The pressure that shows dryness, at the temperature of the coldest part.</summary>
public static class Dryness
{
    /// <summary>1000 micron (133 Pa): a hold that settles below it counts as dry at workshop heat. Source: the trade's
    /// deep-vacuum practice (holds at 500 to 1000 micron: tight and dry; levels at 1000 to 2000: wet).</summary>
    public const double WorkshopPa = 133.322;

    /// <summary>Temperature of that practice, K: 20 °C, where water boils at 2339 Pa.</summary>
    public const double WorkshopK = 293.15;

    /// <summary>
    /// Pressure below which a hold must settle to count as dry, Pa: the same share of water's (or ice's) vapour
    /// pressure as 1000 micron is at 20 °C (0.057), and never more than 1000 micron, since gas from the oil comes on
    /// top. A cold car needs a deeper vacuum to prove the same.
    /// </summary>
    /// <param name="partTemperatureK">Coldest part, 223 to 373 K.</param>
    public static double HeldPa(double partTemperatureK) =>
        Math.Min(
            WorkshopPa,
            WorkshopPa
                * WaterVapour.SaturationPressurePa(partTemperatureK)
                / WaterVapour.SaturationPressurePa(WorkshopK)
        );

    /// <summary>Pressure below which water must boil (ice must leave) while pumping, Pa.</summary>
    public static double BoilsBelowPa(double partTemperatureK) => WaterVapour.SaturationPressurePa(partTemperatureK);

    /// <summary>Odds that water boils in a part this warm, 0 to 1, by a reading and its standard deviation.</summary>
    public static double OddsThatItBoils(double partTemperatureK, double pressurePa, double sigmaPa) =>
        Normal.Cumulative((BoilsBelowPa(partTemperatureK) - pressurePa) / sigmaPa);
}
