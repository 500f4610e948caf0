using Tightcold.Properties;

namespace Tightcold.App.PropertyTables;

/// <summary>Evaluates state points of one pair of inputs with one layer. Thread-safe.</summary>
public sealed class RowEvaluator(Fluid fluid, PropertyLayer layer, PropertyQuantity first, PropertyQuantity second)
{
    private readonly FastFluid? _fast = layer == PropertyLayer.Fast ? fluid.Fast : null;

    /// <summary>The state at two SI values.</summary>
    /// <exception cref="FluidRangeException">A value outside the fluid's range, or not a number.</exception>
    /// <exception cref="FlashDidNotConvergeException">No state found.</exception>
    public PropertyRow Evaluate(double a, double b)
    {
        if (_fast is not null && TryFast(a, b) is { } row)
            return row;
        var state = (first, second) switch
        {
            (PropertyQuantity.Temperature, PropertyQuantity.Pressure) => fluid.AtTemperaturePressure(a, b),
            (PropertyQuantity.Temperature, PropertyQuantity.Density) => fluid.AtTemperatureDensity(a, b),
            (PropertyQuantity.Temperature, _) => fluid.AtTemperatureQuality(a, b),
            (_, PropertyQuantity.Enthalpy) => fluid.AtPressureEnthalpy(a, b),
            (_, PropertyQuantity.Entropy) => fluid.AtPressureEntropy(a, b),
            _ => fluid.AtPressureQuality(a, b),
        };
        return new PropertyRow(
            state.TemperatureK,
            state.PressurePa,
            state.DensityKgPerM3,
            state.EnthalpyJPerKg,
            state.EntropyJPerKgK,
            state.Quality,
            state.CpJPerKgK,
            state.CvJPerKgK,
            state.SpeedOfSoundMPerS,
            fluid.Transport(state),
            state.Phase
        );
    }

    private PropertyRow? TryFast(double a, double b)
    {
        // The tables cover less than the equations; outside them, and for pairs they do not serve, the equations
        // answer.
        var pressure = first == PropertyQuantity.Pressure ? a : b;
        if (
            second == PropertyQuantity.Density
            || second == PropertyQuantity.Quality
            || !(pressure >= _fast!.MinPressurePa && pressure <= _fast.MaxPressurePa)
        )
            return null;
        FastState state;
        try
        {
            state = second switch
            {
                PropertyQuantity.Pressure => a >= _fast.MinTemperatureK && a <= _fast.MaxTemperatureK
                    ? _fast.AtPressureTemperature(b, a)
                    : default,
                PropertyQuantity.Enthalpy => _fast.AtPressureEnthalpy(a, b),
                _ => _fast.AtPressureEntropy(a, b),
            };
        }
        catch (FluidRangeException)
        {
            return null;
        }

        if (state.TemperatureK == 0)
            return null;
        if (state.Quality is not null)
        {
            return new PropertyRow(
                state.TemperatureK,
                state.PressurePa,
                state.DensityKgPerM3,
                state.EnthalpyJPerKg,
                state.EntropyJPerKgK,
                state.Quality,
                null,
                null,
                null,
                default,
                state.Phase
            );
        }

        var full = fluid.AtTemperatureDensityOfPhase(
            state.TemperatureK,
            state.DensityKgPerM3,
            state.Phase,
            out var transport
        );
        return new PropertyRow(
            state.TemperatureK,
            state.PressurePa,
            state.DensityKgPerM3,
            state.EnthalpyJPerKg,
            state.EntropyJPerKgK,
            null,
            full.CpJPerKgK,
            full.CvJPerKgK,
            full.SpeedOfSoundMPerS,
            transport,
            state.Phase
        );
    }
}
