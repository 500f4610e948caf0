using Tightcold.Properties;

namespace Tightcold.SecondWorld.Cars;

/// <summary>Flow through valve and orifice tube.</summary>
public static class Throttle
{
    /// <summary>
    /// Thermostatic valve: opens in proportion over a band of pressure between its bulb, charged with the circuit's own
    /// refrigerant up to a maximum operating pressure, and the suction it feels; liquid by Bernoulli, a flashing inlet
    /// by the density of the mixture.
    /// </summary>
    public static double ValveOpening(FastFluid fluid, CarBuild car, double bulbK, double suctionPa)
    {
        var bulb = Math.Min(
            fluid.SaturationPressurePa(Math.Clamp(bulbK, fluid.MinTemperatureK + 1, 360)),
            car.ValveMaxPa
        );
        return Math.Clamp((bulb - suctionPa - car.ValveStaticPa) / car.ValveBandPa, 0.012, 1.15);
    }

    /// <summary>Flow through the valve, kg/s; a flashing inlet chokes at a share of its own pressure.</summary>
    public static double ValveFlow(FastFluid fluid, double areaM2, double inPa, double inJPerKg, double outPa)
    {
        const double FlashingThroat = 0.6;
        if (inPa <= outPa)
            return 0;
        var (density, quality) = Mixture(fluid, inPa, inJPerKg);
        var throat = Math.Max(outPa, FlashingThroat * inPa * Math.Clamp(quality / 0.04, 0, 1));
        return areaM2 * Math.Sqrt(2 * density * Math.Max(0, inPa - throat));
    }

    /// <summary>
    /// Short tube with a flashing exit: the pressure in its throat does not fall below a share of the saturation
    /// pressure of what comes in ([burnell1947], for water; Kim and O'Neal 1995 found the same kind of choking for
    /// R-134a). The share is 0.82 here, from memory of the range 0.75 to 0.9.
    /// </summary>
    public static double TubeFlow(FastFluid fluid, double areaM2, double inPa, double inJPerKg, double outPa)
    {
        const double ThroatShare = 0.82;
        const double Discharge = 0.82;
        if (inPa <= outPa)
            return 0;
        var line = fluid.SaturationAtPressure(Math.Min(inPa, 0.97 * fluid.Fluid.CriticalPressurePa));
        double saturation;
        if (inJPerKg < line.LiquidEnthalpyJPerKg)
        {
            var temperature = fluid.AtPressureEnthalpy(inPa, inJPerKg).TemperatureK;
            saturation = fluid.SaturationPressurePa(Math.Max(temperature, fluid.MinTemperatureK + 1));
        }
        else
        {
            saturation = inPa;
        }
        var throat = Math.Max(outPa, ThroatShare * saturation);
        var density = Mixture(fluid, inPa, inJPerKg).Density;
        return Discharge * areaM2 * Math.Sqrt(2 * density * Math.Max(0, inPa - throat));
    }

    /// <summary>Density that a throttle feels, homogeneous, and the quality (below 0 for liquid).</summary>
    private static (double Density, double Quality) Mixture(FastFluid fluid, double pressurePa, double enthalpyJPerKg)
    {
        var line = fluid.SaturationAtPressure(Math.Min(pressurePa, 0.97 * fluid.Fluid.CriticalPressurePa));
        var latent = line.VapourEnthalpyJPerKg - line.LiquidEnthalpyJPerKg;
        var quality = (enthalpyJPerKg - line.LiquidEnthalpyJPerKg) / latent;
        if (quality <= 0)
            return (line.LiquidDensityKgPerM3, quality);
        if (quality >= 1)
            return (fluid.AtPressureEnthalpy(pressurePa, enthalpyJPerKg).DensityKgPerM3, quality);
        return (1 / ((1 - quality) / line.LiquidDensityKgPerM3 + quality / line.VapourDensityKgPerM3), quality);
    }
}
