using System.Runtime.CompilerServices;
using Tightcold.Numerics.Interpolation;
using Tightcold.Properties.Data;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Saturation;

/// <summary>
/// The saturation line of one equation. Holds Chebyshev series through exact saturation points, in
/// x = sqrt(1 - T/Tc) because densities are smooth in x up to the critical point; the series give starting
/// guesses, and <see cref="Solve"/> gives the answer. Immutable.
/// </summary>
internal sealed class SaturationCurve
{
    private const int NodesPerSegment = 18;

    // Nearer to the critical point than this in x (1e-6 of Tc in temperature, 0.4 mK), rounding begins to hide the
    // two phases from Newton's method; there the series, fitted from here on, are continued and are the answer.
    private const double NearestX = 1e-3;

    // Ancillaries guess well enough below 0.9975 Tc; above, earlier nodes are extrapolated.
    private const double AncillaryX = 0.05;

    private static readonly double[] InnerLimits = [NearestX, 0.03, 0.12, 0.3, 0.5];

    private readonly HelmholtzEquation _equation;
    private readonly double[] _limits;
    private readonly SaturationSegment[] _segments;

    public SaturationCurve(FluidDefinition fluid)
    {
        _equation = fluid.Equation;
        Critical = CriticalPoint.Of(fluid);
        MinTemperatureK = fluid.MinTemperatureK;
        var maxX = XOf(MinTemperatureK);
        _limits = [.. InnerLimits.Where(limit => limit < maxX - 0.02), maxX];
        _segments = new SaturationSegment[_limits.Length - 1];
        Build(fluid);
        MinPressurePa = Estimate(MinTemperatureK).PressurePa;
    }

    public CriticalPoint Critical { get; }

    public double MinTemperatureK { get; }

    /// <summary>Saturation pressure at the lowest temperature.</summary>
    public double MinPressurePa { get; }

    /// <summary>The densities (reduced) and pressure at a temperature in the valid range; false if the solver does not settle.</summary>
    public bool Solve(in Isotherm isotherm, out double liquid, out double vapour, out double pressurePa, out double residual)
    {
        var x = XOf(isotherm.TemperatureK);
        var segment = SegmentOf(x);
        liquid = segment.Liquid.Evaluate(x);
        vapour = Math.Exp(segment.LogVapour.Evaluate(x));
        if (x < NearestX)
        {
            residual = 0;
            pressurePa = Math.Exp(segment.LogPressure.Evaluate(x));
            return true;
        }

        var solved = SaturationSolver.TrySolve(isotherm, ref liquid, ref vapour, out residual);
        // The vapour's pressure: the liquid's carries its rounding times its stiffness.
        pressurePa = isotherm.PressurePa(vapour, isotherm.Density(vapour));
        return solved;
    }

    /// <summary>True so near the critical point that the series are the answer.</summary>
    public bool IsSeries(double temperatureK) => XOf(temperatureK) < NearestX;

    /// <summary>Approximate saturation at a temperature up to the critical one.</summary>
    public SaturationEstimate Estimate(double temperatureK)
    {
        var x = XOf(temperatureK);
        return SegmentOf(x).Estimate(x, temperatureK);
    }

    /// <summary>Approximate saturation at a pressure between the triple point's and the critical one.</summary>
    public SaturationEstimate EstimateAtPressure(double pressurePa)
    {
        var x = XOfPressure(pressurePa);
        return SegmentOf(x).Estimate(x, TemperatureOf(x));
    }

    /// <summary>Approximate saturation temperature at a pressure.</summary>
    public double EstimateTemperature(double pressurePa) => TemperatureOf(XOfPressure(pressurePa));

    private double XOf(double temperatureK) => Math.Sqrt(Math.Max(0, 1 - (temperatureK / Critical.TemperatureK)));

    private double TemperatureOf(double x) => Critical.TemperatureK * (1 - (x * x));

    private SaturationSegment SegmentOf(double x)
    {
        var i = 0;
        while (i < _segments.Length - 1 && x > _limits[i + 1])
            i++;
        return _segments[i];
    }

    private double XOfPressure(double pressurePa)
    {
        // ln p against x^2 is nearly straight in 1/T: start there, then Newton with a difference slope.
        var target = Math.Log(pressurePa);
        var logCritical = Math.Log(Critical.PressurePa);
        if (target >= logCritical)
            return 0;
        var maxX = _limits[^1];
        var logMin = Math.Log(MinPressurePa);
        var inverse = 1 + ((logCritical - target) / (logCritical - logMin) * ((1 / (1 - (maxX * maxX))) - 1));
        var square = 1 - (1 / inverse);
        for (var i = 0; i < 12; i++)
        {
            // Newton in x^2: ln p is smooth and nearly linear in it.
            var x = Math.Sqrt(square);
            const double Step = 1e-4;
            var other = square > 2 * Step ? square - Step : square + Step;
            var xOther = Math.Sqrt(other);
            var value = SegmentOf(x).LogPressure.Evaluate(x);
            var slope = (SegmentOf(xOther).LogPressure.Evaluate(xOther) - value) / (other - square);
            var step = (target - value) / slope;
            square = Math.Clamp(square + step, 0, maxX * maxX);
            if (Math.Abs(step) < 1e-14)
                break;
        }

        return Math.Sqrt(square);
    }

    [SkipLocalsInit]
    private void Build(FluidDefinition fluid)
    {
        if (fluid.SaturationPressure is null || fluid.LiquidDensity is null || fluid.VapourDensity is null)
            throw new FormatException($"{fluid.Name}: a fluid with a saturation line needs its three ancillaries.");
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var history = new List<(double X, double Liquid, double LogVapour)>();
        for (var s = _segments.Length - 1; s >= 0; s--)
        {
            var nodes = ChebyshevSeries.Nodes(_limits[s], _limits[s + 1], NodesPerSegment);
            var columns = new double[7][];
            for (var c = 0; c < columns.Length; c++)
                columns[c] = new double[NodesPerSegment];
            for (var i = 0; i < nodes.Length; i++)
            {
                var x = nodes[i];
                var temperature = TemperatureOf(x);
                var isotherm = new Isotherm(_equation, temperature, caloric: true, work);
                double liquid, vapour;
                if (x > AncillaryX || history.Count < 4)
                {
                    liquid = fluid.LiquidDensity.Evaluate(temperature) / _equation.ReducingDensityKgPerM3;
                    vapour = fluid.VapourDensity.Evaluate(temperature) / _equation.ReducingDensityKgPerM3;
                }
                else
                {
                    liquid = Extrapolate(history, x, point => point.Liquid);
                    vapour = Math.Exp(Extrapolate(history, x, point => point.LogVapour));
                }

                if (!SaturationSolver.TrySolve(isotherm, ref liquid, ref vapour, 1e-12, out var residual))
                    throw new FormatException($"{fluid.Name}: no saturation found at {temperature} K while reading the fluid file (last step {residual}).");
                history.Add((x, liquid, Math.Log(vapour)));
                var l = isotherm.Point(liquid);
                var v = isotherm.Point(vapour);
                columns[0][i] = liquid;
                columns[1][i] = Math.Log(vapour);
                columns[2][i] = Math.Log(v.PressurePa);
                columns[3][i] = l.EnthalpyJPerKg;
                columns[4][i] = v.EnthalpyJPerKg;
                columns[5][i] = l.EntropyJPerKgK;
                columns[6][i] = v.EntropyJPerKgK;
            }

            ChebyshevSeries Fit(int column) => ChebyshevSeries.FromNodeValues(_limits[s], _limits[s + 1], columns[column]);
            _segments[s] = new SaturationSegment(Fit(0), Fit(1), Fit(2), Fit(3), Fit(4), Fit(5), Fit(6));
        }
    }

    private static double Extrapolate(List<(double X, double Liquid, double LogVapour)> history, double x, Func<(double X, double Liquid, double LogVapour), double> value)
    {
        // Lagrange's parabola through the last, the third last and the fifth last point (spread, for stability).
        var a = history[^1];
        var b = history[^2];
        var c = history[^4];
        return (value(a) * (x - b.X) * (x - c.X) / ((a.X - b.X) * (a.X - c.X)))
            + (value(b) * (x - a.X) * (x - c.X) / ((b.X - a.X) * (b.X - c.X)))
            + (value(c) * (x - a.X) * (x - b.X) / ((c.X - a.X) * (c.X - b.X)));
    }
}
