using System.Runtime.CompilerServices;
using Tightcold.Numerics.Interpolation;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.MoistAir;

/// <summary>
/// Second and third virial coefficients of a pure fluid from its Helmholtz equation in the limit of no density,
/// B = (dA/ddelta) / rho_r and C = (d2A/ddelta2) / rho_r^2, as Chebyshev series over the temperatures of humid air.
/// Molar units: m3/mol and m6/mol2.
/// </summary>
internal sealed class VirialSeries
{
    private const int Nodes = 32;

    // Small enough that the terms beyond C vanish, large enough for the differences inside the equation.
    private const double SmallDelta = 1e-8;

    private readonly ChebyshevSeries _b;
    private readonly ChebyshevSeries _c;
    private readonly ChebyshevSeries _tb;
    private readonly ChebyshevSeries _tc;

    public VirialSeries(Fluid fluid, double minTemperatureK, double maxTemperatureK)
    {
        // The series run in 1/T, in which virial coefficients are smooth.
        double low = 1 / maxTemperatureK,
            high = 1 / minTemperatureK;
        var nodes = ChebyshevSeries.Nodes(low, high, Nodes);
        double[] b = new double[Nodes],
            c = new double[Nodes],
            tb = new double[Nodes],
            tc = new double[Nodes];
        for (var i = 0; i < Nodes; i++)
        {
            var temperature = 1 / nodes[i];
            (b[i], c[i], tb[i]) = At(fluid, temperature);
            // T dC/dT by a central difference; the truncation is (1e-4)^2 of it.
            var step = 1e-4 * temperature;
            tc[i] = (At(fluid, temperature + step).C - At(fluid, temperature - step).C) / 2e-4;
        }

        _b = ChebyshevSeries.FromNodeValues(low, high, b);
        _c = ChebyshevSeries.FromNodeValues(low, high, c);
        _tb = ChebyshevSeries.FromNodeValues(low, high, tb);
        _tc = ChebyshevSeries.FromNodeValues(low, high, tc);
    }

    public double B(double temperatureK) => _b.Evaluate(1 / temperatureK);

    public double C(double temperatureK) => _c.Evaluate(1 / temperatureK);

    /// <summary>T dB/dT.</summary>
    public double TemperatureSlopeB(double temperatureK) => _tb.Evaluate(1 / temperatureK);

    /// <summary>T dC/dT.</summary>
    public double TemperatureSlopeC(double temperatureK) => _tc.Evaluate(1 / temperatureK);

    [SkipLocalsInit]
    private static (double B, double C, double TemperatureSlopeB) At(Fluid fluid, double temperatureK)
    {
        var equation = fluid.Definition.Equation;
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        var tau = equation.ReducingTemperatureK / temperatureK;
        equation.Residual.PrepareTemperature(tau, Math.Log(tau), withDerivatives: true, work);
        var values = equation.Residual.Evaluate(SmallDelta, tau, work);
        var molarVolume = fluid.MolarMassKgPerMol / equation.ReducingDensityKgPerM3;
        // tau d/dtau = -T d/dT at constant density.
        return (
            values.D / SmallDelta * molarVolume,
            values.DD / (SmallDelta * SmallDelta) * molarVolume * molarVolume,
            -values.DT / SmallDelta * molarVolume
        );
    }
}
