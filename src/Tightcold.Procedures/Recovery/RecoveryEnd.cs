using Tightcold.Numerics.Distributions;
using Tightcold.Procedures.Standing;
using Tightcold.Properties;

namespace Tightcold.Procedures.Recovery;

/// <summary>Whether a recovery is at its end: refrigerant keeps coming out of the oil, so the pressure after a wait
/// decides.</summary>
/// <param name="RisePa">From the end of recovery to the end of the wait.</param>
/// <param name="RiseSigmaPa">Standard deviation of that.</param>
/// <param name="Done">Probability that the pressure stands at or below the surrounding air after the wait.</param>
/// <param name="LeftLeastKg">Still inside at the least: vapour alone.</param>
/// <param name="LeftMostKg">At the most: with what the oil holds at that pressure.</param>
public readonly record struct RecoveryEnd(
    double RisePa,
    double RiseSigmaPa,
    double Done,
    double LeftLeastKg,
    double LeftMostKg
)
{
    /// <summary>A shorter wait proves nothing: the oil needs minutes. Common practice: five.</summary>
    public const double LeastWaitS = 300;

    /// <param name="fluid">The refrigerant.</param>
    /// <param name="volumeM3">Of the system.</param>
    /// <param name="oilM3">In it.</param>
    /// <param name="temperatureK">Of the system, near the air's.</param>
    /// <param name="endPa">When recovery stopped, absolute.</param>
    /// <param name="waitedPa">After the wait, absolute.</param>
    /// <param name="sigmaPa">Of one gauge reading.</param>
    /// <param name="airPa">Surrounding air, absolute.</param>
    public static RecoveryEnd Of(
        Fluid fluid,
        double volumeM3,
        double oilM3,
        double temperatureK,
        double endPa,
        double waitedPa,
        double sigmaPa,
        double airPa
    )
    {
        if (!(volumeM3 > 0 && oilM3 >= 0 && sigmaPa > 0))
            throw new ArgumentOutOfRangeException(
                nameof(volumeM3),
                volumeM3,
                "volume and gauge error above 0 are needed"
            );
        var saturationPa = fluid.SaturationAtTemperature(temperatureK).PressurePa;
        var pressurePa = Math.Clamp(waitedPa, 2e3, 0.99 * saturationPa);
        var vapour = volumeM3 * fluid.AtTemperaturePressure(temperatureK, pressurePa).DensityKgPerM3;
        // At the same pressure the oil holds what its solution law says; interaction constant of vehicle oils about 0.4
        // ± 0.2.
        var dissolved = oilM3 > 0 ? OilSolution.DissolvedKg(fluid, temperatureK, pressurePa, oilM3, 0.3) : 0;
        return new(
            waitedPa - endPa,
            Math.Sqrt(2) * sigmaPa,
            Normal.Cumulative((airPa - waitedPa) / sigmaPa),
            vapour,
            vapour + dissolved
        );
    }
}
