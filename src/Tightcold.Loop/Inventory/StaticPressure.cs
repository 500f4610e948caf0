using Tightcold.Loop.Designs;
using Tightcold.Loop.Refrigerant;

namespace Tightcold.Loop.Inventory;

/// <summary>Pressure of the standing circuit at one temperature, Pa absolute, refrigerant alone.</summary>
internal static class StaticPressure
{
    // Oil near its saturation takes up about a third of its volume of refrigerant, 0.3 kg a kilogram (assumed).
    private const double OilUptake = 0.3;

    public static double Refrigerant(
        RefrigerantTable table,
        LoopDesign design,
        double temperatureK,
        double chargeKg,
        double oilKg
    )
    {
        var saturation = table.SaturationPressurePa(temperatureK);
        table.Row(Math.Log(saturation), out var row);
        // Free refrigerant if the vapour alone fills the volume; uptake in proportion to pressure below saturation.
        var gas = row.VapourDensity * design.InternalVolumeM3;
        var uptake = OilUptake * oilKg;
        if (chargeKg >= gas + uptake)
            return saturation;
        // Z falls from 1 to its value at saturation in proportion to pressure: m = V p/(Z R T) + uptake p/psat.
        var r = 8.314462618 / table.MolarMassKgPerMol;
        var z = saturation * row.VapourVolume / (r * temperatureK);
        double low = 0,
            high = 1;
        for (var i = 0; i < 50; i++)
        {
            var share = 0.5 * (low + high);
            var mass =
                (design.InternalVolumeM3 * share * saturation / ((1 - ((1 - z) * share)) * r * temperatureK))
                + (uptake * share);
            if (mass > chargeKg)
                high = share;
            else
                low = share;
        }

        return 0.5 * (low + high) * saturation;
    }
}
