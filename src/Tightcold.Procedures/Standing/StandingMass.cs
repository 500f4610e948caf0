using Tightcold.Properties;

namespace Tightcold.Procedures.Standing;

/// <summary>Mass from a standing pressure.</summary>
public static class StandingMass
{
    /// <summary>Vapour only: V·ρ(T,p) in the gas space, plus what the oil holds.</summary>
    /// <param name="volumeM3">Internal volume of the system.</param>
    /// <param name="volumeRelativeSigma">Its relative standard deviation; this dominates.</param>
    /// <param name="oilVolumeM3">Oil in the system; between a third and all of it is taken to be at
    /// equilibrium.</param>
    public static MassBelief VapourOnly(
        Fluid fluid,
        StandingReading reading,
        double volumeM3,
        double volumeRelativeSigma,
        double oilVolumeM3
    )
    {
        var saturation = fluid.SaturationAtTemperature(reading.TemperatureK);
        var pressurePa = Math.Min(reading.PressurePa, saturation.PressurePa);
        var density =
            pressurePa >= saturation.PressurePa * (1 - 1e-9)
                ? saturation.VapourDensityKgPerM3
                : fluid.AtTemperaturePressure(reading.TemperatureK, pressurePa).DensityKgPerM3;
        var vapourKg = volumeM3 * density;
        var relative = Math.Sqrt(
            volumeRelativeSigma * volumeRelativeSigma
                + Math.Pow(reading.PressureSigmaPa / reading.PressurePa, 2)
                + Math.Pow(reading.TemperatureSigmaK / reading.TemperatureK, 2)
        );
        var leastInOilKg =
            OilSolution.DissolvedKg(fluid, reading.TemperatureK, pressurePa, oilVolumeM3, OilSolution.HighInteraction)
            / 3;
        var mostInOilKg = OilSolution.DissolvedKg(
            fluid,
            reading.TemperatureK,
            pressurePa,
            oilVolumeM3,
            OilSolution.LowInteraction
        );
        // A flat belief between the two: mean and standard deviation of a uniform distribution.
        var inOilKg = 0.5 * (leastInOilKg + mostInOilKg);
        var inOilSigmaKg = (mostInOilKg - leastInOilKg) / Math.Sqrt(12);
        return new(
            vapourKg + inOilKg,
            Math.Sqrt(Math.Pow(relative * vapourKg, 2) + inOilSigmaKg * inOilSigmaKg),
            vapourKg,
            inOilKg
        );
    }

    /// <summary>Liquid present: the gas space alone already holds V·ρ″(T); nothing bounds it from above.</summary>
    /// <returns>A mass that is exceeded with 95 % probability, kg.</returns>
    public static double LiquidPresentLeastKg(
        Fluid fluid,
        StandingReading reading,
        double volumeM3,
        double volumeRelativeSigma
    ) =>
        volumeM3
        * Math.Exp(-1.6449 * volumeRelativeSigma)
        * fluid.SaturationAtTemperature(reading.TemperatureK).VapourDensityKgPerM3;
}
