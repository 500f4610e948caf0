using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Tightcold.Numerics.Interpolation;
using Tightcold.Numerics.Roots;
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

    // The inverse of the pressure series is good to rounding beyond this x.
    private const double InverseX = 0.03;

    // Ancillaries guess well enough below 0.9975 Tc; above, earlier nodes are extrapolated.
    private const double AncillaryX = 0.05;

    private static readonly double[] InnerLimits = [NearestX, 0.03, 0.12, 0.3, 0.5];

    private readonly HelmholtzEquation _equation;
    private readonly double[] _limits;
    private readonly SaturationSegment[] _segments;
    private readonly InverseCurve _inverse;

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
        _inverse = new InverseCurve(Math.Log(MinPressurePa), Math.Log(Critical.PressurePa), TemperatureAt);
    }

    public CriticalPoint Critical { get; }

    public double MinTemperatureK { get; }

    /// <summary>Saturation pressure at the lowest temperature.</summary>
    public double MinPressurePa { get; }

    /// <summary>The densities (reduced) at a temperature in the valid range; false if the solver does not
    /// settle.</summary>
    public bool Solve(in Isotherm isotherm, out double liquid, out double vapour, out double residual)
    {
        var x = XOf(isotherm.TemperatureK);
        var guess = SegmentOf(x).First(x);
        liquid = guess.ToScalar();
        vapour = Math.Exp(guess.GetElement(1));
        residual = 0;
        if (x < NearestX)
            return true;

        // Newton squares the relative error, times a factor that grows like 1/x^2 towards the critical point.
        return SaturationSolver.TrySolve(isotherm, ref liquid, ref vapour, x > 0.1 ? 1e-8 : 1e-10, out residual);
    }

    /// <summary>True so near the critical point that the series are the answer.</summary>
    public bool IsSeries(double temperatureK) => XOf(temperatureK) < NearestX;

    /// <summary>Approximate saturation at a temperature up to the critical one.</summary>
    public SaturationEstimate Estimate(double temperatureK)
    {
        var x = XOf(temperatureK);
        return SegmentOf(x).Estimate(x, temperatureK);
    }

    /// <summary>Approximate reduced densities and ln(p) at a temperature up to the critical one.</summary>
    public void Estimate(double temperatureK, out double liquid, out double vapour, out double logPressure)
    {
        var x = XOf(temperatureK);
        var value = SegmentOf(x).First(x);
        liquid = value.ToScalar();
        vapour = Math.Exp(value.GetElement(1));
        logPressure = value.GetElement(2);
    }

    /// <summary>The pressure of the series, Pa, at a temperature up to the critical one.</summary>
    public double PressurePa(double temperatureK)
    {
        var x = XOf(temperatureK);
        return Math.Exp(SegmentOf(x).First(x).GetElement(2));
    }

    /// <summary>Approximate saturation at a pressure between the triple point's and the critical one.</summary>
    public SaturationEstimate EstimateAtPressure(double pressurePa) => Estimate(EstimateTemperature(pressurePa));

    /// <summary>Approximate saturation temperature at a pressure.</summary>
    public double EstimateTemperature(double pressurePa)
    {
        var logPressure = Math.Log(pressurePa);
        var temperature = Math.Clamp(_inverse.TemperatureK(logPressure), MinTemperatureK, Critical.TemperatureK);
        // Next to the critical point the inverse, unlike the series, is not good to the last digit, and there the
        // series are the answer: solve them.
        return XOf(temperature) < InverseX ? TemperatureAt(logPressure) : temperature;
    }

    private double XOf(double temperatureK) => Math.Sqrt(Math.Max(0, 1 - (temperatureK / Critical.TemperatureK)));

    private double TemperatureOf(double x) => Critical.TemperatureK * (1 - (x * x));

    private SaturationSegment SegmentOf(double x)
    {
        var i = 0;
        while (i < _segments.Length - 1 && x > _limits[i + 1])
            i++;
        return _segments[i];
    }

    /// <summary>The series solved for temperature, slowly but to the last digit.</summary>
    private double TemperatureAt(double logPressure) =>
        TemperatureOf(BracketedRoot.Nearest(new PressureExcess(this, logPressure), 0, _limits[^1], 0));

    /// <summary>ln p of the series over x above a wanted one; it falls.</summary>
    private readonly struct PressureExcess(SaturationCurve curve, double logPressure) : IScalarFunction
    {
        public double Evaluate(double x) => curve.SegmentOf(x).First(x).GetElement(2) - logPressure;
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
                double liquid,
                    vapour;
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
                    throw new FormatException(
                        $"{fluid.Name}: no saturation found at {temperature} K while reading the fluid file (last step {residual})."
                    );
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

            _segments[s] = new SaturationSegment(_limits[s], _limits[s + 1], columns);
        }
    }

    private static double Extrapolate(
        List<(double X, double Liquid, double LogVapour)> history,
        double x,
        Func<(double X, double Liquid, double LogVapour), double> value
    )
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
