using System.Collections.Immutable;
using Tightcold.Properties;

namespace Tightcold.Procedures.Standing;

/// <summary>Another refrigerant whose own pressure is where the gauges stand.</summary>
/// <param name="Fluid">Which.</param>
/// <param name="SaturationPa">With liquid of it inside, at the temperature of the last reading.</param>
public readonly record struct OtherRefrigerant(Fluid Fluid, double SaturationPa)
{
    // Off the label's by more than this, on the other's by less, in standard deviations of p − psat.
    private const double FarOff = 3,
        On = 2;

    // What fits the ports and hoses of these cars, or was put in with a small can; R-744 stands at ten times the
    // pressure.
    private static readonly ImmutableArray<string> Known = ["R12", "R134a", "R1234yf", "R152a"];

    /// <summary>Those that fit every reading, where liquid of the label's own does not; the closest first. A gauge
    /// never tells a mixture, nor one that happens to stand at the label's pressure: an identifier does.</summary>
    /// <param name="label">Refrigerant on the label.</param>
    /// <param name="readings">At rest, in order of time; each with its own temperature.</param>
    public static ImmutableArray<OtherRefrigerant> Fitting(Fluid label, params ReadOnlySpan<StandingReading> readings)
    {
        var all = readings.ToArray();
        if (all.All(reading => Math.Abs(Off(label, reading)) <= FarOff))
            return [];
        return
        [
            .. Known
                .Select(FluidCatalog.Get)
                .Where(fluid => fluid.Name != label.Name && all.All(reading => Math.Abs(Off(fluid, reading)) < On))
                .OrderBy(fluid => all.Max(reading => Math.Abs(Off(fluid, reading))))
                .Select(fluid => new OtherRefrigerant(
                    fluid,
                    fluid.SaturationAtTemperature(all[^1].TemperatureK).PressurePa
                )),
        ];
    }

    private static double Off(Fluid fluid, StandingReading reading) =>
        (reading.PressurePa - fluid.SaturationAtTemperature(reading.TemperatureK).PressurePa)
        / StandingOdds.Sigma(fluid, reading);
}
