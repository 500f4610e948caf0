using Tightcold.Properties;

namespace Tightcold.App.Diagrams;

/// <summary>A saturation table of a fluid at round temperatures of the reader's unit.</summary>
public static class SaturationTable
{
    /// <summary>Rows from the lowest round temperature of the fast layer's range to below the critical point.</summary>
    /// <param name="fluid">A fluid with a saturation line.</param>
    /// <param name="units">The reader's units; the step is a round number in them.</param>
    /// <param name="step">Step in the reader's temperature unit, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A step that is not above zero, or a fluid without saturation in
    /// its range.</exception>
    public static IEnumerable<SaturationState> Rows(Fluid fluid, DiagramUnits units, double step)
    {
        if (!(step > 0 && double.IsFinite(step)))
            throw new ArgumentOutOfRangeException(nameof(step), step, "A step above zero is wanted.");
        if (!fluid.Fast.HasSaturation)
            throw new ArgumentOutOfRangeException(
                nameof(fluid),
                fluid.Name,
                "This fluid has no saturation line in its range."
            );
        return Enumerate(fluid, units, step);
    }

    private static IEnumerable<SaturationState> Enumerate(Fluid fluid, DiagramUnits units, double step)
    {
        var last = Math.Min(fluid.CriticalTemperatureK, fluid.Fast.MaxTemperatureK);
        // A hair of slack: -40 degC is 233.15 K only to the last digit.
        var first = Math.Ceiling((units.TemperatureFromK(fluid.Fast.MinTemperatureK) - 1e-9) / step);
        for (var i = first; units.TemperatureToK(i * step) <= last; i++)
            yield return fluid.SaturationAtTemperature(Math.Max(units.TemperatureToK(i * step), fluid.MinTemperatureK));
    }
}
