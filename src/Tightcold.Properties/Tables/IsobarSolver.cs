using System.Runtime.CompilerServices;
using Tightcold.Properties.Flashes;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Tables;

/// <summary>States along one isobar for the making of tables: each solved from its neighbour by Newton's
/// method.</summary>
internal sealed class IsobarSolver(Fluid fluid)
{
    private const int MaxIterations = 30;

    // The tables aim at 1e-7; a step this small leaves an error of its square.
    private const double LastStep = 1e-6;

    private readonly HelmholtzEquation _equation = fluid.Definition.Equation;

    [SkipLocalsInit]
    public PointProperties At(double temperatureK, double delta)
    {
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        return new Isotherm(_equation, temperatureK, caloric: true, work).Point(delta);
    }

    /// <summary>The stable state at temperature and pressure.</summary>
    public PointProperties AtTemperaturePressure(double temperatureK, double pressurePa)
    {
        var state = fluid.AtTemperaturePressure(temperatureK, pressurePa);
        return At(temperatureK, state.DensityKgPerM3 / _equation.ReducingDensityKgPerM3);
    }

    /// <summary>The gas at temperature and pressure, on the saturation line too.</summary>
    [SkipLocalsInit]
    public PointProperties GasAt(double temperatureK, double pressurePa)
    {
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var isotherm = new Isotherm(_equation, temperatureK, caloric: true, work);
        var delta = pressurePa / isotherm.PressureScalePa;
        if (!DensitySolver.TrySolve(isotherm, pressurePa, 0, double.PositiveInfinity, ref delta, out var residual))
            throw new FlashDidNotConvergeException(
                fluid.Name,
                "a table node",
                residual,
                "the density iteration did not settle"
            );
        return isotherm.Point(delta);
    }

    /// <summary>The state on the critical isochore at a pressure above the critical one.</summary>
    public PointProperties OnCriticalIsochore(double pressurePa)
    {
        var critical = fluid.ByTemperature.Critical;
        var temperature = critical.TemperatureK;
        for (var i = 0; i < MaxIterations; i++)
        {
            var point = At(temperature, critical.Delta);
            var step = (pressurePa - point.PressurePa) / point.PressureByTemperature;
            temperature += step;
            if (Math.Abs(step) < 1e-13 * temperature)
                break;
        }

        return At(temperature, critical.Delta);
    }

    /// <summary>From a guess near the same isobar to the state whose coordinate is <paramref name="target"/>.</summary>
    public PointProperties Step(double temperature, double delta, double pressurePa, TableInput input, double target)
    {
        if (input == TableInput.Temperature)
            return AlongIsotherm(target, delta, pressurePa);
        var previous = double.PositiveInfinity;
        for (var i = 0; i < MaxIterations; i++)
        {
            var point = At(temperature, delta);
            if (!(point.Stiffness > 0))
                break;
            var pressureExcess = point.PressurePa - pressurePa;
            var pressureByLog = point.DensityKgPerM3 * point.PressureByDensity;
            var enthalpy = input == TableInput.Enthalpy;
            var excess = (enthalpy ? point.EnthalpyJPerKg : point.EntropyJPerKgK) - target;
            var byT = enthalpy ? point.EnthalpyByTemperature : point.EntropyByTemperature;
            var byLog = point.DensityKgPerM3 * (enthalpy ? point.EnthalpyByDensity : point.EntropyByDensity);
            var determinant = (point.PressureByTemperature * byLog) - (byT * pressureByLog);
            var stepT = ((-pressureExcess * byLog) + (excess * pressureByLog)) / determinant;
            var stepLog = ((-excess * point.PressureByTemperature) + (pressureExcess * byT)) / determinant;
            var size = Math.Max(Math.Abs(stepT) / temperature, Math.Abs(stepLog));
            if (!(size < 0.5))
                break;
            temperature += stepT;
            delta *= Math.Exp(stepLog);
            if (size < LastStep || (size < 1e-5 && size >= previous))
                return At(temperature, delta);
            previous = size;
        }

        return Fallback(pressurePa, input, target);
    }

    /// <summary>The same where the temperature is given: what depends on it alone is worked out once.</summary>
    [SkipLocalsInit]
    private PointProperties AlongIsotherm(double temperature, double delta, double pressurePa)
    {
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var isotherm = new Isotherm(_equation, temperature, caloric: true, work);
        if (DensitySolver.TrySolve(isotherm, pressurePa, 0, double.PositiveInfinity, ref delta, out _))
            return isotherm.Point(delta);
        return Fallback(pressurePa, TableInput.Temperature, temperature);
    }

    private PointProperties Fallback(double pressurePa, TableInput input, double target)
    {
        var state = input switch
        {
            TableInput.Enthalpy => fluid.AtPressureEnthalpy(pressurePa, target),
            TableInput.Entropy => fluid.AtPressureEntropy(pressurePa, target),
            _ => fluid.AtTemperaturePressure(target, pressurePa),
        };
        return At(state.TemperatureK, state.DensityKgPerM3 / _equation.ReducingDensityKgPerM3);
    }
}
