using System.Runtime.CompilerServices;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Flashes;

/// <summary>Exact saturation with caloric properties, by temperature or by pressure.</summary>
internal static class SaturationLookup
{
    private const int MaxIterations = 20;

    [SkipLocalsInit]
    public static bool TryAtTemperature(
        TemperatureFlash flash,
        double temperatureK,
        out PointProperties liquid,
        out PointProperties vapour,
        out double pressurePa,
        out double residual
    )
    {
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var isotherm = new Isotherm(flash.Fluid.Equation, temperatureK, caloric: true, work);
        var solved = flash.Saturation!.Solve(isotherm, out var deltaL, out var deltaV, out residual);
        liquid = isotherm.Point(deltaL);
        vapour = isotherm.Point(deltaV);
        // The vapour's pressure: the liquid's carries its rounding times its stiffness.
        pressurePa = vapour.PressurePa;
        return solved;
    }

    /// <summary>Newton along the saturation line with Clapeyron's slope; the estimate is so close that one or two steps
    /// do.</summary>
    public static bool TryAtPressure(
        TemperatureFlash flash,
        double pressurePa,
        out PointProperties liquid,
        out PointProperties vapour,
        out double residual
    )
    {
        var curve = flash.Saturation!;
        var temperature = curve.EstimateTemperature(pressurePa);
        if (curve.IsSeries(temperature))
            return TryAtTemperature(flash, temperature, out liquid, out vapour, out _, out residual);
        residual = double.PositiveInfinity;
        var previous = residual;
        for (var i = 0; i < MaxIterations; i++)
        {
            if (!TryAtTemperature(flash, temperature, out liquid, out vapour, out var pressure, out residual))
                return false;
            var swelling = (1 / vapour.DensityKgPerM3) - (1 / liquid.DensityKgPerM3);
            var slope = (vapour.EntropyJPerKgK - liquid.EntropyJPerKgK) / swelling;
            if (!(swelling > 0) || !(slope > 0))
                return residual < 1e-6;
            var step = (pressurePa - pressure) / slope;
            residual = Math.Abs(step) / temperature;
            // A step this small changes nothing that double precision would show in the phases already found.
            if (residual < 1e-13 || (residual < 1e-11 && residual >= previous))
                return true;
            previous = residual;
            temperature = Math.Clamp(temperature + step, curve.MinTemperatureK, curve.Critical.TemperatureK);
        }

        liquid = default;
        vapour = default;
        return false;
    }
}
