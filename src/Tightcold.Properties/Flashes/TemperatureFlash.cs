using System.Globalization;
using System.Runtime.CompilerServices;
using Tightcold.Properties.Data;
using Tightcold.Properties.Helmholtz;
using Tightcold.Properties.Saturation;

namespace Tightcold.Properties.Flashes;

/// <summary>Flashes that start from the temperature, and the parts the others share.</summary>
internal sealed class TemperatureFlash
{
    /// <summary>Below this pressure nothing is asked in the trade, and ln(rho) would lose meaning.</summary>
    public const double MinPressurePa = 1e-3;

    private const double MinDensityKgPerM3 = 1e-9;

    // The estimates of the saturation line hold to better than this; nearer to it the exact line decides.
    private const double DecisionMargin = 1e-6;

    private readonly FluidDefinition _fluid;
    private readonly CubicGuess _guess;

    public TemperatureFlash(FluidDefinition fluid, SaturationCurve? saturation)
    {
        _fluid = fluid;
        Saturation = saturation;
        _guess = new CubicGuess(fluid);
        Critical = saturation?.Critical ?? CriticalPoint.Of(fluid);
    }

    public SaturationCurve? Saturation { get; }

    public CriticalPoint Critical { get; }

    public FluidDefinition Fluid => _fluid;

    /// <summary>The phase where no saturation line divides; a mixture treated as one fluid has no critical point to be
    /// above, and is gas.</summary>
    public FluidPhase SupercriticalPhase(double temperatureK, double pressurePa) =>
        temperatureK < Critical.TemperatureK ? FluidPhase.Liquid
        : pressurePa < Critical.PressurePa || Saturation is null ? FluidPhase.Gas
        : FluidPhase.Supercritical;

    public void CheckTemperature(double temperatureK)
    {
        if (!(temperatureK >= _fluid.MinTemperatureK && temperatureK <= _fluid.MaxTemperatureK))
            throw new FluidRangeException(
                _fluid.Name,
                "temperatureK",
                temperatureK,
                Range(_fluid.MinTemperatureK, _fluid.MaxTemperatureK, "K")
            );
    }

    public void CheckPressure(double pressurePa)
    {
        if (!(pressurePa >= MinPressurePa && pressurePa <= _fluid.MaxPressurePa))
            throw new FluidRangeException(
                _fluid.Name,
                "pressurePa",
                pressurePa,
                Range(MinPressurePa, _fluid.MaxPressurePa, "Pa")
            );
    }

    public void CheckDensity(double densityKgPerM3)
    {
        var most = 8 * _fluid.Equation.ReducingDensityKgPerM3;
        if (!(densityKgPerM3 >= MinDensityKgPerM3 && densityKgPerM3 <= most))
            throw new FluidRangeException(
                _fluid.Name,
                "densityKgPerM3",
                densityKgPerM3,
                Range(MinDensityKgPerM3, most, "kg/m3")
            );
    }

    public static string Range(double low, double high, string unit) =>
        string.Create(CultureInfo.InvariantCulture, $"{low:G10} to {high:G10} {unit}");

    [SkipLocalsInit]
    public FlashResult AtTemperaturePressure(double temperatureK, double pressurePa)
    {
        CheckTemperature(temperatureK);
        CheckPressure(pressurePa);
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var isotherm = new Isotherm(_fluid.Equation, temperatureK, caloric: true, work);
        if (!TryDensity(isotherm, pressurePa, out var delta, out var phase, out var residual))
            return FlashResult.Stalled(residual, "the density iteration did not settle");
        return FlashResult.Of(StateMaker.SinglePhase(isotherm.Point(delta), pressurePa, phase), 1, residual);
    }

    /// <summary>The density of the stable phase at the isotherm's temperature and a pressure.</summary>
    public bool TryDensity(
        in Isotherm isotherm,
        double pressurePa,
        out double delta,
        out FluidPhase phase,
        out double residual
    )
    {
        var temperature = isotherm.TemperatureK;
        var target = pressurePa / isotherm.PressureScalePa;
        if (Saturation is null || temperature >= Critical.TemperatureK)
        {
            phase = SupercriticalPhase(temperature, pressurePa);
            delta = _guess.Delta(temperature, pressurePa);
            return DensitySolver.TrySolve(isotherm, pressurePa, 0, double.PositiveInfinity, ref delta, out residual);
        }

        Saturation.Estimate(temperature, out var liquid, out var vapour, out var logBoundary);
        var boundary = Math.Exp(logBoundary);
        if (Math.Abs((pressurePa / boundary) - 1) < DecisionMargin)
        {
            if (!Saturation.Solve(isotherm, out liquid, out vapour, out residual))
            {
                delta = 0;
                phase = FluidPhase.Liquid;
                return false;
            }

            // The vapour's pressure: the liquid's carries its rounding times its stiffness.
            boundary = isotherm.PressurePa(vapour, isotherm.Density(vapour));
        }

        if (pressurePa < boundary)
        {
            phase = FluidPhase.Gas;
            // Z runs nearly straight in p from 1 to its saturated value.
            var saturated = boundary / (isotherm.PressureScalePa * vapour);
            delta = target / (1 + ((saturated - 1) * (pressurePa / boundary)));
            return DensitySolver.TrySolve(
                isotherm,
                pressurePa,
                0,
                vapour * (1 + DecisionMargin),
                ref delta,
                out residual
            );
        }

        phase = FluidPhase.Liquid;
        delta = liquid;
        return DensitySolver.TrySolve(
            isotherm,
            pressurePa,
            liquid * (1 - DecisionMargin),
            double.PositiveInfinity,
            ref delta,
            out residual
        );
    }

    [SkipLocalsInit]
    public FlashResult AtTemperatureDensity(double temperatureK, double densityKgPerM3)
    {
        CheckTemperature(temperatureK);
        var reducing = _fluid.Equation.ReducingDensityKgPerM3;
        CheckDensity(densityKgPerM3);
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var isotherm = new Isotherm(_fluid.Equation, temperatureK, caloric: true, work);
        var delta = densityKgPerM3 / reducing;
        var phase = FluidPhase.Gas;
        if (Saturation is not null && temperatureK < Critical.TemperatureK)
        {
            Saturation.Estimate(temperatureK, out var liquid, out var vapour, out _);
            if (delta > vapour * (1 - DecisionMargin) && delta < liquid * (1 + DecisionMargin))
            {
                if (!Saturation.Solve(isotherm, out liquid, out vapour, out var residual))
                    return FlashResult.Stalled(residual, "the saturation iteration did not settle");
                if (delta >= vapour && delta <= liquid)
                {
                    var quality = ((1 / delta) - (1 / liquid)) / ((1 / vapour) - (1 / liquid));
                    var saturated = isotherm.Point(vapour);
                    return FlashResult.Of(
                        StateMaker.Mix(isotherm.Point(liquid), saturated, saturated.PressurePa, quality),
                        1,
                        residual
                    );
                }
            }

            if (delta > Critical.Delta)
                phase = FluidPhase.Liquid;
        }

        var point = isotherm.Point(delta);
        // 1e-9 of slack: the density of a state at the limit carries rounding times the stiffness of the liquid.
        if (!(point.PressurePa <= _fluid.MaxPressurePa * (1 + 1e-9)))
            throw new FluidRangeException(
                _fluid.Name,
                "densityKgPerM3",
                densityKgPerM3,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"densities whose pressure is at most {_fluid.MaxPressurePa:G10} Pa at this temperature"
                )
            );
        if (temperatureK >= Critical.TemperatureK)
            phase = SupercriticalPhase(temperatureK, point.PressurePa);
        return FlashResult.Of(StateMaker.SinglePhase(point, point.PressurePa, phase));
    }

    [SkipLocalsInit]
    public FlashResult AtTemperatureQuality(double temperatureK, double quality)
    {
        CheckQuality(quality);
        var curve = SaturationOrThrow();
        CheckSaturationTemperature(temperatureK);
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var isotherm = new Isotherm(_fluid.Equation, temperatureK, caloric: true, work);
        if (!curve.Solve(isotherm, out var liquid, out var vapour, out var residual))
            return FlashResult.Stalled(residual, "the saturation iteration did not settle");
        var saturated = isotherm.Point(vapour);
        return FlashResult.Of(
            StateMaker.Mix(isotherm.Point(liquid), saturated, saturated.PressurePa, quality),
            1,
            residual
        );
    }

    public void CheckQuality(double quality)
    {
        if (!(quality >= 0 && quality <= 1))
            throw new FluidRangeException(_fluid.Name, "quality", quality, "0 to 1 (mass of vapour over mass)");
    }

    public SaturationCurve SaturationOrThrow() =>
        Saturation
        ?? throw new FluidRangeException(
            _fluid.Name,
            "quality",
            double.NaN,
            "no saturation line: this fluid is a mixture treated as one, served above its critical temperature only"
        );

    public void CheckSaturationTemperature(double temperatureK)
    {
        if (!(temperatureK >= _fluid.MinTemperatureK && temperatureK <= Critical.TemperatureK))
            throw new FluidRangeException(
                _fluid.Name,
                "temperatureK",
                temperatureK,
                Range(_fluid.MinTemperatureK, Critical.TemperatureK, "K (triple point to critical point)")
            );
    }

    public void CheckSaturationPressure(double pressurePa)
    {
        if (!(pressurePa >= Saturation!.MinPressurePa * (1 - 1e-9) && pressurePa <= Critical.PressurePa))
            throw new FluidRangeException(
                _fluid.Name,
                "pressurePa",
                pressurePa,
                Range(Saturation.MinPressurePa, Critical.PressurePa, "Pa (triple point to critical point)")
            );
    }
}
