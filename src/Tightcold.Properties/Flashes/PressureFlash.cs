using System.Globalization;
using System.Runtime.CompilerServices;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Flashes;

/// <summary>Flashes from pressure and enthalpy, entropy or quality.</summary>
internal sealed class PressureFlash(TemperatureFlash temperatureFlash)
{
    private const int MaxNewton = 25;

    private const int MaxBracketed = 120;

    // Newton squares the error: after a step this small the next is below rounding.
    private const double LastStep = 1e-9;

    private readonly TemperatureFlash _flash = temperatureFlash;

    public FlashResult AtPressureQuality(double pressurePa, double quality)
    {
        _flash.CheckQuality(quality);
        _flash.SaturationOrThrow();
        _flash.CheckSaturationPressure(pressurePa);
        return SaturationLookup.TryAtPressure(_flash, pressurePa, out var liquid, out var vapour, out var residual)
            ? FlashResult.Of(StateMaker.Mix(liquid, vapour, pressurePa, quality), 1, residual)
            : FlashResult.Stalled(residual, "the saturation iteration did not settle");
    }

    public FlashResult AtPressureCaloric(double pressurePa, double value, CaloricInput input)
    {
        _flash.CheckPressure(pressurePa);
        if (!double.IsFinite(value))
            throw new FluidRangeException(_flash.Fluid.Name, NameOf(input), value, "a finite number");

        var curve = _flash.Saturation;
        var fluid = _flash.Fluid;
        double low = fluid.MinTemperatureK,
            high = fluid.MaxTemperatureK;
        if (curve is null || pressurePa < curve.MinPressurePa)
            return Bracketed(pressurePa, value, input, low, high);

        if (pressurePa >= curve.Critical.PressurePa)
        {
            // One phase along the whole isobar: Newton from the state on the critical isochore.
            return TryNewton(
                pressurePa,
                value,
                input,
                IsochoreTemperature(pressurePa),
                curve.Critical.Delta,
                low,
                high,
                FluidPhase.Supercritical,
                out var dense
            )
                ? dense
                : Bracketed(pressurePa, value, input, low, high);
        }

        var estimate = curve.EstimateAtPressure(pressurePa);
        var enthalpy = input == CaloricInput.Enthalpy;
        var valueL = enthalpy ? estimate.LiquidEnthalpyJPerKg : estimate.LiquidEntropyJPerKgK;
        var valueV = enthalpy ? estimate.VapourEnthalpyJPerKg : estimate.VapourEntropyJPerKgK;
        // Far from the dome the estimate decides; within a thousandth of its width the exact line does.
        var margin = 1e-3 * (valueV - valueL);
        var saturationTemperature = estimate.TemperatureK;
        double deltaL = estimate.LiquidDelta,
            deltaV = estimate.VapourDelta;
        bool isLiquid;
        if (value > valueL - margin && value < valueV + margin)
        {
            if (!SaturationLookup.TryAtPressure(_flash, pressurePa, out var liquid, out var vapour, out var residual))
                return FlashResult.Stalled(residual, "the saturation iteration did not settle");
            var exactL = enthalpy ? liquid.EnthalpyJPerKg : liquid.EntropyJPerKgK;
            var exactV = enthalpy ? vapour.EnthalpyJPerKg : vapour.EntropyJPerKgK;
            if (value >= exactL && value <= exactV)
            {
                var quality = exactV > exactL ? (value - exactL) / (exactV - exactL) : 0;
                return FlashResult.Of(StateMaker.Mix(liquid, vapour, pressurePa, quality), 1, residual);
            }

            isLiquid = value < exactL;
            saturationTemperature = liquid.TemperatureK;
            deltaL = liquid.Delta;
            deltaV = vapour.Delta;
        }
        else
        {
            isLiquid = value < valueL;
        }

        if (isLiquid)
            high = saturationTemperature;
        else
            low = saturationTemperature;
        var phase = isLiquid ? FluidPhase.Liquid : FluidPhase.Gas;
        if (
            TryNewton(
                pressurePa,
                value,
                input,
                saturationTemperature,
                isLiquid ? deltaL : deltaV,
                low,
                high,
                phase,
                out var result
            )
        )
            return result;
        return Bracketed(pressurePa, value, input, low, high);
    }

    /// <summary>Newton in T and ln(rho) from a state on the right side of the dome; false hands over to the bracketed
    /// search.</summary>
    private bool TryNewton(
        double pressurePa,
        double value,
        CaloricInput input,
        double temperature,
        double delta,
        double low,
        double high,
        FluidPhase phase,
        out FlashResult result
    )
    {
        result = default;
        var startDelta = delta;
        var previous = double.PositiveInfinity;
        for (var i = 0; i < MaxNewton; i++)
        {
            var point = Evaluate(temperature, delta);
            if (!(point.Stiffness > 0))
                return false;
            Residuals(point, value, input, out var excess, out var byTemperature, out var byLogDensity);
            var pressureExcess = point.PressurePa - pressurePa;
            var pressureByT = point.PressureByTemperature;
            var pressureByLog = point.DensityKgPerM3 * point.PressureByDensity;
            var determinant = (pressureByT * byLogDensity) - (byTemperature * pressureByLog);
            var stepT = ((-pressureExcess * byLogDensity) + (excess * pressureByLog)) / determinant;
            var stepLog = ((-excess * pressureByT) + (pressureExcess * byTemperature)) / determinant;
            if (!double.IsFinite(stepT) || !double.IsFinite(stepLog))
                return false;
            var size = Math.Max(Math.Abs(stepT) / temperature, Math.Abs(stepLog));
            var limit = phase == FluidPhase.Liquid ? 0.1 : 0.5;
            if (size > limit)
            {
                stepT *= limit / size;
                stepLog *= limit / size;
            }

            temperature += stepT;
            delta *= Math.Exp(stepLog);
            if (size < LastStep || (size < 1e-7 && size >= previous))
            {
                // The answer must lie on the side it was sought on, in temperature and in density.
                const double Slack = 1e-9;
                if (temperature < low * (1 - Slack) || temperature > high * (1 + Slack))
                    return false;
                var wrongSide = phase switch
                {
                    FluidPhase.Gas => delta > startDelta * (1 + 1e-6),
                    FluidPhase.Liquid => delta < _flash.Critical.Delta,
                    _ => false,
                };
                if (wrongSide)
                    return false;
                temperature = Math.Clamp(temperature, _flash.Fluid.MinTemperatureK, _flash.Fluid.MaxTemperatureK);
                var found =
                    phase == FluidPhase.Supercritical ? _flash.SupercriticalPhase(temperature, pressurePa) : phase;
                result = FlashResult.Of(
                    StateMaker.SinglePhase(Evaluate(temperature, delta), pressurePa, found),
                    i + 1,
                    size
                );
                return true;
            }

            previous = size;
            if (temperature < 0.9 * low || temperature > 1.1 * high)
                return false;
        }

        return false;
    }

    /// <summary>Roughly where the isobar crosses the critical isochore, along which pressure is nearly straight in
    /// temperature.</summary>
    private double IsochoreTemperature(double pressurePa)
    {
        var critical = _flash.Critical;
        var temperature = critical.TemperatureK;
        for (var i = 0; i < 2; i++)
        {
            var point = Evaluate(temperature, critical.Delta);
            temperature += (pressurePa - point.PressurePa) / point.PressureByTemperature;
        }

        return Math.Clamp(temperature, critical.TemperatureK, _flash.Fluid.MaxTemperatureK);
    }

    /// <summary>At fixed pressure h and s rise with temperature: Newton in T with cp, kept inside a bracket.</summary>
    private FlashResult Bracketed(double pressurePa, double value, CaloricInput input, double low, double high)
    {
        if (!TryAt(pressurePa, low, out var atLow, out _) || !TryAt(pressurePa, high, out var atHigh, out _))
            return FlashResult.Stalled(1, "the density at an end of the temperature range did not settle");
        double first = ValueOf(atLow, input),
            last = ValueOf(atHigh, input);
        // Slack for values computed from a state at the very end of the range.
        var slack = 1e-9 * Math.Abs(last - first);
        if (value < first - slack || value > last + slack)
        {
            throw new FluidRangeException(
                _flash.Fluid.Name,
                NameOf(input),
                value,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{TemperatureFlash.Range(first, last, UnitOf(input))} at {pressurePa:G10} Pa in this phase"
                )
            );
        }

        var temperature = low + ((high - low) * Math.Clamp((value - first) / (last - first), 0, 1));
        // Newton in a bracket and no search by values: the equation gives the slope with every state.
        var residual = double.PositiveInfinity;
        var width = high - low;
        for (var i = 0; i < MaxBracketed; i++)
        {
            if (!TryAt(pressurePa, temperature, out var point, out var phase))
                return FlashResult.Stalled(residual, "the density iteration did not settle");
            var excess = ValueOf(point, input) - value;
            if (excess > 0)
                high = temperature;
            else
                low = temperature;
            var cp = point.CpJPerKgK;
            var slope = input == CaloricInput.Enthalpy ? cp : cp / temperature;
            var next = slope > 0 && double.IsFinite(slope) ? temperature - (excess / slope) : double.NaN;
            residual = Math.Abs(next - temperature) / temperature;
            if (residual < 1e-14 || high - low < 4e-16 * high)
                return FlashResult.Of(StateMaker.SinglePhase(point, pressurePa, phase), i + 1, residual);
            // Near the critical point Newton can walk to and fro round the bend: every third step must halve the
            // bracket.
            var slow = i % 3 == 2 && high - low > 0.5 * width;
            temperature = next > low && next < high && !slow ? next : 0.5 * (low + high);
            if (i % 3 == 2)
                width = high - low;
        }

        return FlashResult.Stalled(residual, "the bracketed search in temperature did not close");
    }

    [SkipLocalsInit]
    private bool TryAt(double pressurePa, double temperatureK, out PointProperties point, out FluidPhase phase)
    {
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var isotherm = new Isotherm(_flash.Fluid.Equation, temperatureK, caloric: true, work);
        var found = _flash.TryDensity(isotherm, pressurePa, out var delta, out phase, out _);
        point = isotherm.Point(delta);
        return found;
    }

    [SkipLocalsInit]
    private PointProperties Evaluate(double temperatureK, double delta)
    {
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        return new Isotherm(_flash.Fluid.Equation, temperatureK, caloric: true, work).Point(delta);
    }

    private static void Residuals(
        in PointProperties point,
        double value,
        CaloricInput input,
        out double excess,
        out double byTemperature,
        out double byLogDensity
    )
    {
        if (input == CaloricInput.Enthalpy)
        {
            excess = point.EnthalpyJPerKg - value;
            byTemperature = point.EnthalpyByTemperature;
            byLogDensity = point.DensityKgPerM3 * point.EnthalpyByDensity;
        }
        else
        {
            excess = point.EntropyJPerKgK - value;
            byTemperature = point.EntropyByTemperature;
            byLogDensity = point.DensityKgPerM3 * point.EntropyByDensity;
        }
    }

    private static double ValueOf(in PointProperties point, CaloricInput input) =>
        input == CaloricInput.Enthalpy ? point.EnthalpyJPerKg : point.EntropyJPerKgK;

    private static string NameOf(CaloricInput input) =>
        input == CaloricInput.Enthalpy ? "enthalpyJPerKg" : "entropyJPerKgK";

    private static string UnitOf(CaloricInput input) => input == CaloricInput.Enthalpy ? "J/kg" : "J/(kg K)";
}
