using Tightcold.Numerics.Roots;
using Tightcold.Properties;

namespace Tightcold.Procedures.Standing;

/// <summary>Refrigerant dissolved in compressor oil at rest.</summary>
public static class OilSolution
{
    /// <summary>Flory–Huggins interaction of polyalkylene-glycol oils with HFC refrigerants: 0.3 to 0.6; assumed
    /// from measured R-134a/PAG solubilities, not fitted here.</summary>
    public const double LowInteraction = 0.3;
    public const double HighInteraction = 0.6;

    /// <summary>
    /// Volume fraction of refrigerant in the liquid solution, from ln(p/psat) = ln f + (1 − f) + χ(1 − f)².
    /// </summary>
    /// <param name="reducedPressure">p/psat(T), from 0 to 1; capped at 0.95, where the law turns too steep to
    /// trust.</param>
    /// <param name="interaction">χ, 0 to 0.6.</param>
    /// <returns>f from 0 to below 1. Source: Flory–Huggins theory of polymer solutions, one-constant form.</returns>
    public static double RefrigerantVolumeFraction(double reducedPressure, double interaction)
    {
        if (!(reducedPressure > 0))
            return 0;
        var target = Math.Log(Math.Min(reducedPressure, 0.95));
        // The right side rises with f up to f = 1/(2χ) ≥ 0.83; below that there is exactly one root, and not below
        // exp(target - 1 - χ), since the terms after ln f sum to 1 + χ at the most.
        return BracketedRoot.Nearest(
            new Excess(target, interaction),
            Math.Exp(target - 1 - interaction),
            interaction > 0 ? Math.Min(1, 1 / (2 * interaction)) : 1,
            1e-15
        );
    }

    private readonly struct Excess(double target, double interaction) : IScalarFunction
    {
        public double Evaluate(double x) => Math.Log(x) + (1 - x) + interaction * (1 - x) * (1 - x) - target;
    }

    /// <summary>Mass dissolved, kg, in <paramref name="oilVolumeM3"/> of oil at rest.</summary>
    public static double DissolvedKg(
        Fluid fluid,
        double temperatureK,
        double pressurePa,
        double oilVolumeM3,
        double interaction
    )
    {
        var saturation = fluid.SaturationAtTemperature(temperatureK);
        var f = RefrigerantVolumeFraction(pressurePa / saturation.PressurePa, interaction);
        return f / (1 - f) * oilVolumeM3 * saturation.LiquidDensityKgPerM3;
    }
}
