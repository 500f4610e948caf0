using Tightcold.Loop.Designs;
using Tightcold.Loop.Refrigerant;
using Tightcold.Numerics.Roots;

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
        var idealKg = design.InternalVolumeM3 * saturation / (r * temperatureK);
        return BracketedRoot.Nearest(new MassExcess(idealKg, z, uptake, chargeKg), 0, 1, 1e-15) * saturation;
    }

    /// <summary>Mass above the charge, kg, over p/psat.</summary>
    private readonly struct MassExcess(double idealKg, double z, double uptakeKg, double chargeKg) : IScalarFunction
    {
        public double Evaluate(double x) => (idealKg * x / (1 - ((1 - z) * x))) + (uptakeKg * x) - chargeKg;
    }
}
