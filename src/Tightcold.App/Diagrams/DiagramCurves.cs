using Tightcold.Properties;
using Tightcold.Tongues;

namespace Tightcold.App.Diagrams;

/// <summary>Computes the lines of a pressure-enthalpy diagram from the reference equations.</summary>
internal sealed class DiagramCurves(Fluid fluid, DiagramUnits units, double minPressurePa, double maxPressurePa)
{
    private const int PointsPerCurve = 60;

    private readonly double _minTemperatureK = fluid.Fast.MinTemperatureK;
    private readonly double _maxTemperatureK = fluid.Fast.MaxTemperatureK;

    /// <summary>The saturation line: up the liquid side, over the critical point, down the vapour side.</summary>
    public DiagramCurve Dome()
    {
        var low = Math.Max(
            minPressurePa,
            fluid.SaturationAtTemperature(Math.Max(_minTemperatureK, fluid.MinTemperatureK)).PressurePa
        );
        var high = Math.Min(fluid.CriticalPressurePa, maxPressurePa);
        var states = Enumerable
            .Range(0, PointsPerCurve + 1)
            // Crowded towards the critical point, where the dome bends over.
            .Select(i => 1 - Math.Pow(1 - ((double)i / PointsPerCurve), 2))
            .Select(share => Math.Min(low * Math.Pow(high / low, share), high))
            .Select(fluid.SaturationAtPressure)
            .ToList();
        return new DiagramCurve(
            "dome",
            "saturation",
            [
                .. states.Select(state => (state.LiquidEnthalpyJPerKg, state.PressurePa)),
                .. Enumerable.Reverse(states).Select(state => (state.VapourEnthalpyJPerKg, state.PressurePa)),
            ]
        );
    }

    public IEnumerable<DiagramCurve> Isotherms()
    {
        var step = units == DiagramUnits.Us ? 40.0 : 20.0;
        var first = Math.Ceiling(units.TemperatureFromK(_minTemperatureK) / step) * step;
        for (var t = first; units.TemperatureToK(t) <= _maxTemperatureK; t += step)
        {
            var kelvin = units.TemperatureToK(t);
            yield return new DiagramCurve(
                "isotherm",
                $"{t.ToString("0", Say.Tongue.Culture)} {units.Temperature}",
                Isotherm(kelvin)
            );
        }
    }

    public IEnumerable<DiagramCurve> Isentropes()
    {
        if (!fluid.HasSaturation)
            yield break;
        // From the vapour line upwards in pressure, as a compressor goes.
        var reference = fluid.SaturationAtTemperature(
            Math.Min(273.15, fluid.CriticalTemperatureK - 20) is var t && t > fluid.MinTemperatureK
                ? t
                : fluid.MinTemperatureK + 1
        );
        var centre = reference.VapourEntropyJPerKgK;
        for (var i = -3; i <= 6; i++)
        {
            var entropy = (Math.Round(centre / 50) + i) * 50;
            var points = Logarithmic().Select(pressure => TryAt(pressure, entropy)).OfType<(double, double)>().ToList();
            if (points.Count > 1)
                yield return new DiagramCurve(
                    "isentrope",
                    $"{units.EntropyFromJPerKgK(entropy).ToString("0.00", Say.Tongue.Culture)} {units.Entropy}",
                    points
                );
        }
    }

    public IEnumerable<DiagramCurve> Qualities()
    {
        var low = Math.Max(
            minPressurePa,
            fluid.SaturationAtTemperature(Math.Max(_minTemperatureK, fluid.MinTemperatureK)).PressurePa
        );
        var high = Math.Min(fluid.CriticalPressurePa * 0.9999, maxPressurePa);
        for (var quality = 0.2; quality < 0.9; quality += 0.2)
        {
            var points = new List<(double, double)>();
            for (var i = 0; i <= PointsPerCurve; i++)
            {
                var pressure = Math.Min(low * Math.Pow(high / low, (double)i / PointsPerCurve), high);
                points.Add((fluid.AtPressureQuality(pressure, quality).EnthalpyJPerKg, pressure));
            }

            yield return new DiagramCurve("quality", string.Empty, points);
        }
    }

    private List<(double, double)> Isotherm(double kelvin)
    {
        var points = new List<(double, double)>();
        var saturation =
            fluid.HasSaturation && kelvin < fluid.CriticalTemperatureK
                ? fluid.SaturationAtTemperature(kelvin)
                : (SaturationState?)null;
        foreach (var pressure in Logarithmic().Reverse())
        {
            // The liquid part first, then the flat stretch across the dome, then the gas.
            if (
                saturation is { } line
                && pressure < line.PressurePa
                && (points.Count == 0 || points[^1].Item2 >= line.PressurePa)
                && line.PressurePa <= maxPressurePa
            )
            {
                points.Add((line.LiquidEnthalpyJPerKg, line.PressurePa));
                points.Add((line.VapourEnthalpyJPerKg, line.PressurePa));
            }

            points.Add((fluid.AtTemperaturePressure(kelvin, pressure).EnthalpyJPerKg, pressure));
        }

        return points;
    }

    private (double, double)? TryAt(double pressurePa, double entropyJPerKgK)
    {
        try
        {
            var state = fluid.AtPressureEntropy(pressurePa, entropyJPerKgK);
            var drawn =
                state.TemperatureK <= _maxTemperatureK
                && state.TemperatureK >= _minTemperatureK
                && state.Phase != FluidPhase.Liquid;
            return drawn && state.Quality is null or >= 1 ? (state.EnthalpyJPerKg, pressurePa) : null;
        }
        catch (FluidRangeException)
        {
            return null;
        }
    }

    private IEnumerable<double> Logarithmic() =>
        Enumerable
            .Range(0, PointsPerCurve + 1)
            .Select(i =>
                Math.Clamp(
                    minPressurePa * Math.Pow(maxPressurePa / minPressurePa, (double)i / PointsPerCurve),
                    minPressurePa,
                    maxPressurePa
                )
            );
}
