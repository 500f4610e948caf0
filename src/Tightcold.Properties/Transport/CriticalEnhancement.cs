using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>The simplified crossover model of Olchowy and Sengers [olchowy1989] (Int. J. Thermophys. 10, 417, 1989) for
/// the conductivity near the critical point.</summary>
internal sealed class CriticalEnhancement
{
    public required ReferenceStiffness Reference { get; init; }

    public required double BoltzmannJPerK { get; init; }

    public required double R0 { get; init; }

    public required double Nu { get; init; }

    public required double Gamma { get; init; }

    public required double Amplitude { get; init; }

    public required double Zeta0M { get; init; }

    public required double QdPerM { get; init; }

    public required double PressurePa { get; init; }

    public required double DensityKgPerM3 { get; init; }

    public double Evaluate(in PointProperties point, double viscosityPaS)
    {
        var scale = PressurePa / (DensityKgPerM3 * DensityKgPerM3) * point.DensityKgPerM3;
        var here = scale / point.PressureByDensity;
        var there = scale / Reference.PressureByDensity(point.Delta) * Reference.TemperatureK / point.TemperatureK;
        var excess = here - there;
        if (!(excess > 1e-14))
            return 0;
        var zeta = Zeta0M * Math.Pow(excess / Amplitude, Nu / Gamma);
        var y = zeta * QdPerM;
        double cp = point.CpJPerKgK,
            cv = point.CvJPerKgK;
        var omega = 2 / Math.PI * (((cp - cv) / cp * Math.Atan(y)) + (cv / cp * y));
        var omega0 = 2 / Math.PI * (1 - Math.Exp(-1 / ((1 / y) + (y * y / (3 * point.Delta * point.Delta)))));
        return point.DensityKgPerM3
            * cp
            * R0
            * BoltzmannJPerK
            * point.TemperatureK
            / (6 * Math.PI * viscosityPaS * zeta)
            * (omega - omega0);
    }
}
