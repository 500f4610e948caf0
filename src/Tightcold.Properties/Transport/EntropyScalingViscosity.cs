using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>Viscosity by residual entropy scaling (Bell and Laesecke 2016): R-1234yf, R-152a.</summary>
internal sealed class EntropyScalingViscosity : ViscosityModel
{
    public required double MolarMassKgPerMol { get; init; }

    public required double SigmaM { get; init; }

    public required double EpsilonOverK { get; init; }

    public required double Factor { get; init; }

    public required double[] Liquid { get; init; }

    public required double[] Vapour { get; init; }

    public required double CriticalResidualEntropyJPerM3K { get; init; }

    public required double Crossover { get; init; }

    public required double Steepness { get; init; }

    public override double Dilute(double temperatureK) =>
        KineticTheory(temperatureK, MolarMassKgPerMol, SigmaM, EpsilonOverK);

    public override double Evaluate(in PointProperties point)
    {
        var x = point.DensityKgPerM3 * point.ResidualEntropyJPerKgK / CriticalResidualEntropyJPerM3K;
        var share = 1 / (1 + Math.Exp(-Steepness * (x - Crossover)));
        var f = (share * Polynomial(Liquid, x)) + ((1 - share) * Polynomial(Vapour, x));
        return Dilute(point.TemperatureK) * (1 + (Factor * (Math.Exp(f) - 1)));
    }

    private static double Polynomial(double[] c, double x)
    {
        var sum = 0.0;
        for (var i = c.Length - 1; i >= 0; i--)
            sum = (sum * x) + c[i];
        return sum;
    }
}
