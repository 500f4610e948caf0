using System.Runtime.CompilerServices;
using Tightcold.Numerics.Roots;
using Tightcold.Properties.Data;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Flashes;

/// <summary>The state of a closed, rigid, insulated volume: from density and internal energy.</summary>
/// <remarks>At fixed density u rises with temperature (cv is positive, inside the dome too): one bracketed
/// root.</remarks>
internal sealed class DensityEnergyFlash(TemperatureFlash temperatureFlash)
{
    private const int MaxIterations = 200;
    private const int ToTwelveDigits = 40;

    public FlashResult At(double densityKgPerM3, double internalEnergyJPerKg)
    {
        var fluid = temperatureFlash.Fluid;
        if (!double.IsFinite(internalEnergyJPerKg))
            throw new FluidRangeException(fluid.Name, "internalEnergyJPerKg", internalEnergyJPerKg, "a finite number");
        double low = fluid.MinTemperatureK,
            high = HighestTemperature(densityKgPerM3);
        var atLow = temperatureFlash.AtTemperatureDensity(low, densityKgPerM3);
        var atHigh = temperatureFlash.AtTemperatureDensity(high, densityKgPerM3);
        if (!atLow.Found || !atHigh.Found)
            return FlashResult.Stalled(1, "the state at an end of the temperature range did not settle");
        double uLow = atLow.State.InternalEnergyJPerKg,
            uHigh = atHigh.State.InternalEnergyJPerKg;
        var slack = 1e-9 * (uHigh - uLow);
        if (internalEnergyJPerKg < uLow - slack || internalEnergyJPerKg > uHigh + slack)
            throw new FluidRangeException(
                fluid.Name,
                "internalEnergyJPerKg",
                internalEnergyJPerKg,
                TemperatureFlash.Range(uLow, uHigh, "J/kg at this density")
            );

        var temperature = low + ((high - low) * Math.Clamp((internalEnergyJPerKg - uLow) / (uHigh - uLow), 0, 1));
        // Newton in a bracket and no search by values: the equation gives the slope with every state.
        var residual = double.PositiveInfinity;
        var width = high - low;
        for (var i = 0; i < MaxIterations; i++)
        {
            var result = temperatureFlash.AtTemperatureDensity(temperature, densityKgPerM3);
            if (!result.Found)
                return result;
            var excess = result.State.InternalEnergyJPerKg - internalEnergyJPerKg;
            if (excess > 0)
                high = temperature;
            else
                low = temperature;
            var slope =
                result.State.Phase == FluidPhase.TwoPhase ? TwoPhaseCv(result.State) : result.State.CvJPerKgK ?? 0;
            var next = slope > 0 ? temperature - (excess / slope) : double.NaN;
            residual = Math.Abs(next - temperature) / temperature;
            if (residual < 1e-14 || high - low < 4e-16 * high)
                return FlashResult.Of(result.State, i + 1, residual);
            // Near the critical point Newton can walk to and fro round the bend: every third step must halve the
            // bracket.
            var slow = i % 3 == 2 && high - low > 0.5 * width;
            temperature = next > low && next < high && !slow ? next : 0.5 * (low + high);
            if (i % 3 == 2)
                width = high - low;
        }

        return FlashResult.Stalled(residual, "the bracketed search in temperature did not close");
    }

    /// <summary>A liquid of fixed density passes the pressure limit long before the temperature limit.</summary>
    private double HighestTemperature(double densityKgPerM3)
    {
        var fluid = temperatureFlash.Fluid;
        var tooHigh = new TooHigh(fluid, densityKgPerM3 / fluid.Equation.ReducingDensityKgPerM3);
        // The last temperature that is allowed, and not one a rounding above it.
        return tooHigh.Says(fluid.MaxTemperatureK)
            ? Halving.Narrow(ref tooHigh, fluid.MinTemperatureK, fluid.MaxTemperatureK, ToTwelveDigits).No
            : fluid.MaxTemperatureK;
    }

    private readonly struct TooHigh(FluidDefinition fluid, double delta) : IQuestion
    {
        [SkipLocalsInit]
        public bool Says(double x)
        {
            Span<double> work = stackalloc double[ResidualPart.MaxWork];
            var isotherm = new Isotherm(fluid.Equation, x, caloric: false, work);
            return isotherm.PressurePa(delta, isotherm.Density(delta)) > fluid.MaxPressurePa;
        }
    }

    // du/dT at constant density inside the dome, by a small difference along the exact line.
    private double TwoPhaseCv(in FluidState state)
    {
        var step = 1e-4 * state.TemperatureK;
        var lower = Math.Max(state.TemperatureK - step, temperatureFlash.Fluid.MinTemperatureK);
        if (lower >= state.TemperatureK)
            return 0;
        var other = temperatureFlash.AtTemperatureDensity(lower, state.DensityKgPerM3);
        return other.Found
            ? (state.InternalEnergyJPerKg - other.State.InternalEnergyJPerKg) / (state.TemperatureK - lower)
            : 0;
    }
}
