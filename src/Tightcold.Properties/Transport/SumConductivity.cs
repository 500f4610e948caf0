using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>Dilute gas, residual and critical enhancement: all fluids but water and R-12.</summary>
internal sealed class SumConductivity : ConductivityModel
{
    /// <summary>The dilute gas, W/(m K), from temperature in K.</summary>
    public required Func<double, double> Dilute { get; init; }

    public required double ResidualTemperatureK { get; init; }

    public required double ResidualDensityKgPerM3 { get; init; }

    /// <summary>Terms c tau^t delta^d exp(-gamma delta^l).</summary>
    public required (double C, double T, double D, double Gamma, double L)[] Residual { get; init; }

    public required CriticalEnhancement Critical { get; init; }

    public override double Evaluate(in PointProperties point, double viscosityPaS) =>
        Dilute(point.TemperatureK)
        + Background(point.TemperatureK, point.DensityKgPerM3)
        + Critical.Evaluate(point, viscosityPaS);

    public override double Background(double temperatureK, double densityKgPerM3)
    {
        var tau = ResidualTemperatureK / temperatureK;
        var delta = densityKgPerM3 / ResidualDensityKgPerM3;
        var sum = 0.0;
        foreach (var (c, t, d, gamma, l) in Residual)
            sum +=
                c
                * (t == 0 ? 1 : Math.Pow(tau, t))
                * Math.Pow(delta, d)
                * (gamma == 0 ? 1 : Math.Exp(-gamma * Math.Pow(delta, l)));
        return sum;
    }
}
