using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Flashes;

/// <summary>Turns evaluations of the equation into public states.</summary>
internal static class StateMaker
{
    public static FluidState SinglePhase(
        in PointProperties point,
        double pressurePa,
        FluidPhase phase,
        double? quality = null
    )
    {
        var cp = point.CpJPerKgK;
        var soundSquared = point.SpeedOfSoundSquared;
        // Next to the critical point rounding can turn dp/drho to zero or below: there cp and the like have no
        // finite value, and none is given.
        var regular = point.Stiffness > 0 && double.IsFinite(cp) && soundSquared > 0;
        // (dT/dp)_h = (T (dv/dT)_p - v) / cp, (dv/dT)_p = R N / (rho R T K) with the reduced derivatives.
        var jouleThomson = ((point.ThermalPressure / point.Stiffness) - 1) / (point.DensityKgPerM3 * cp);
        return new FluidState
        {
            TemperatureK = point.TemperatureK,
            PressurePa = pressurePa,
            DensityKgPerM3 = point.DensityKgPerM3,
            EnthalpyJPerKg = point.EnthalpyJPerKg,
            EntropyJPerKgK = point.EntropyJPerKgK,
            InternalEnergyJPerKg = point.InternalEnergyJPerKg,
            CpJPerKgK = regular ? cp : null,
            CvJPerKgK = point.CvJPerKgK,
            SpeedOfSoundMPerS = regular ? Math.Sqrt(soundSquared) : null,
            FugacityPa = FugacityPa(point),
            JouleThomsonKPerPa = regular ? jouleThomson : null,
            PressureByDensityAtTemperature = point.PressureByDensity,
            PressureByTemperatureAtDensity = point.PressureByTemperature,
            Quality = quality,
            Phase = phase,
        };
    }

    public static FluidState Mix(
        in PointProperties liquid,
        in PointProperties vapour,
        double pressurePa,
        double quality
    )
    {
        if (quality == 0)
            return SinglePhase(liquid, pressurePa, FluidPhase.TwoPhase, 0);
        if (quality == 1)
            return SinglePhase(vapour, pressurePa, FluidPhase.TwoPhase, 1);
        var volume = Between(1 / liquid.DensityKgPerM3, 1 / vapour.DensityKgPerM3, quality);
        var swelling = (1 / vapour.DensityKgPerM3) - (1 / liquid.DensityKgPerM3);
        return new FluidState
        {
            TemperatureK = liquid.TemperatureK,
            PressurePa = pressurePa,
            DensityKgPerM3 = 1 / volume,
            EnthalpyJPerKg = Between(liquid.EnthalpyJPerKg, vapour.EnthalpyJPerKg, quality),
            EntropyJPerKgK = Between(liquid.EntropyJPerKgK, vapour.EntropyJPerKgK, quality),
            InternalEnergyJPerKg = Between(liquid.InternalEnergyJPerKg, vapour.InternalEnergyJPerKg, quality),
            FugacityPa = FugacityPa(vapour),
            PressureByDensityAtTemperature = 0,
            PressureByTemperatureAtDensity = (vapour.EntropyJPerKgK - liquid.EntropyJPerKgK) / swelling,
            Quality = quality,
            Phase = FluidPhase.TwoPhase,
        };
    }

    private static double Between(double liquid, double vapour, double quality) =>
        liquid + (quality * (vapour - liquid));

    // ln(f / (rho R T)) = A + delta A_d: finite for any density, without the pressure's rounding in a liquid.
    private static double FugacityPa(in PointProperties point) =>
        point.DensityKgPerM3 * point.GasConstant * point.TemperatureK * Math.Exp(point.LogFugacityByDensity);
}
