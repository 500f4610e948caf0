using Tightcold.Numerics.Distributions;
using Tightcold.Properties;

namespace Tightcold.Procedures.Standing;

/// <summary>What stands in the resting system: vapour only, liquid too, or another gas as well. The three always
/// sum to 1.</summary>
public readonly record struct StandingOdds(double VapourOnly, double LiquidPresent, double OtherGas)
{
    /// <summary>Before any reading, for a car that blows warm. Assumed: liquid may hide any charge above about a
    /// sixth of the label; air comes from earlier careless filling.</summary>
    public static readonly StandingOdds Prior = new(0.35, 0.55, 0.10);

    /// <summary>Excess pressures up to this are thought possible when another gas is inside, Pa; assumed.</summary>
    private const double WidestExcessPa = 300_000;

    /// <summary>Bayes' rule over the three cases.</summary>
    /// <remarks>
    /// Liquid present: p = psat(T), so the difference δ = p − psat is noise of σ² = σp² + (dpsat/dT·σT)².
    /// Vapour only: any p below psat is as likely as another. Another gas: any excess up to 3 bar.
    /// With a second reading at another temperature, vapour keeps its density (p moves about 0.34 %/K) while a
    /// saturated system follows psat (about 2.9 %/K near 25 °C): that decides where one reading cannot.
    /// </remarks>
    public static StandingOdds From(Fluid fluid, StandingReading first, StandingReading? second = null)
    {
        var vapour = Prior.VapourOnly * VapourLikelihood(fluid, first);
        var liquid = Prior.LiquidPresent * LiquidLikelihood(fluid, first);
        var other = Prior.OtherGas * OtherGasLikelihood(fluid, first);
        if (second is { } later)
        {
            vapour *= SameDensityLikelihood(fluid, first, later);
            liquid *= LiquidLikelihood(fluid, later);
            // The excess n·R·T/V moves with the absolute temperature, the rest with saturation.
            var excess =
                Math.Max(0, first.PressurePa - Saturation(fluid, first.TemperatureK))
                * later.TemperatureK
                / first.TemperatureK;
            var sigma = Sigma(fluid, later) + Sigma(fluid, first);
            other *=
                Normal.Density((later.PressurePa - Saturation(fluid, later.TemperatureK) - excess) / sigma) / sigma;
        }
        var sum = vapour + liquid + other;
        // Both tails under the smallest double: the reading fits nothing; the prior says so honestly.
        return sum > 0 ? new(vapour / sum, liquid / sum, other / sum) : Prior;
    }

    private static double Saturation(Fluid fluid, double temperatureK) =>
        fluid.SaturationAtTemperature(temperatureK).PressurePa;

    /// <summary>Standard deviation of p − psat(T), Pa.</summary>
    public static double Sigma(Fluid fluid, StandingReading reading)
    {
        var slope =
            (Saturation(fluid, reading.TemperatureK + 0.5) - Saturation(fluid, reading.TemperatureK - 0.5)) / 1.0;
        return Math.Sqrt(
            reading.PressureSigmaPa * reading.PressureSigmaPa
                + slope * slope * reading.TemperatureSigmaK * reading.TemperatureSigmaK
        );
    }

    private static double LiquidLikelihood(Fluid fluid, StandingReading reading)
    {
        var sigma = Sigma(fluid, reading);
        return Normal.Density((reading.PressurePa - Saturation(fluid, reading.TemperatureK)) / sigma) / sigma;
    }

    private static double VapourLikelihood(Fluid fluid, StandingReading reading)
    {
        var saturation = Saturation(fluid, reading.TemperatureK);
        return Normal.Cumulative((saturation - reading.PressurePa) / Sigma(fluid, reading)) / saturation;
    }

    private static double OtherGasLikelihood(Fluid fluid, StandingReading reading)
    {
        var sigma = Sigma(fluid, reading);
        var excess = reading.PressurePa - Saturation(fluid, reading.TemperatureK);
        return (Normal.Cumulative(excess / sigma) - Normal.Cumulative((excess - WidestExcessPa) / sigma))
            / WidestExcessPa;
    }

    private static double SameDensityLikelihood(Fluid fluid, StandingReading first, StandingReading later)
    {
        var saturation = fluid.SaturationAtTemperature(first.TemperatureK);
        var densityKgPerM3 =
            first.PressurePa >= saturation.PressurePa
                ? saturation.VapourDensityKgPerM3
                : fluid.AtTemperaturePressure(first.TemperatureK, first.PressurePa).DensityKgPerM3;
        var expectedPa = fluid.AtTemperatureDensity(later.TemperatureK, densityKgPerM3).PressurePa;
        var ratio = later.TemperatureK / first.TemperatureK;
        var sigma = Math.Sqrt(
            later.PressureSigmaPa * later.PressureSigmaPa
                + ratio * ratio * first.PressureSigmaPa * first.PressureSigmaPa
                + Math.Pow(expectedPa / later.TemperatureK, 2)
                    * (
                        first.TemperatureSigmaK * first.TemperatureSigmaK
                        + later.TemperatureSigmaK * later.TemperatureSigmaK
                    )
        );
        return Normal.Density((later.PressurePa - expectedPa) / sigma) / sigma;
    }
}
