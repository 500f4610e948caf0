using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>Viscosity by extended corresponding states (Klein, McLinden, Laesecke 1997): R-12 from R-134a.</summary>
internal sealed class CorrespondingViscosity : ViscosityModel
{
    public required Lazy<Fluid> Reference { get; init; }

    public required double MolarMassKgPerMol { get; init; }

    public required double CriticalTemperatureK { get; init; }

    public required double CriticalDensityMolPerM3 { get; init; }

    public required double SigmaM { get; init; }

    public required double EpsilonOverK { get; init; }

    public required double PsiDensityMolPerM3 { get; init; }

    public required double[] Psi { get; init; }

    public override double Dilute(double temperatureK) =>
        KineticTheory(temperatureK, MolarMassKgPerMol, SigmaM, EpsilonOverK);

    public override double Evaluate(in PointProperties point)
    {
        var reference = Reference.Value;
        var density = point.DensityKgPerM3 / MolarMassKgPerMol;
        if (Conformal(reference, point, density, CriticalTemperatureK, CriticalDensityMolPerM3) is not { } state)
            return double.NaN;
        var f = point.TemperatureK / state.TemperatureK;
        var h = state.DensityMolPerM3 / density;
        var factor = Math.Sqrt(f) * Math.Pow(h, -2.0 / 3) * Math.Sqrt(MolarMassKgPerMol / reference.MolarMassKgPerMol);
        var background = reference.Definition.Viscosity!.Background(
            state.TemperatureK,
            state.DensityMolPerM3 * PsiAt(Psi, density / PsiDensityMolPerM3)
        );
        return Dilute(point.TemperatureK) + (factor * background);
    }

    internal static ConformalState? Conformal(
        Fluid reference,
        in PointProperties point,
        double densityMolPerM3,
        double criticalTemperatureK,
        double criticalDensityMolPerM3
    ) =>
        ConformalState.Find(
            reference,
            point.LogFugacityByDensity - point.ResidualD,
            1 + point.ResidualD,
            point.TemperatureK * reference.Definition.CriticalTemperatureK / criticalTemperatureK,
            densityMolPerM3
                * reference.Definition.CriticalDensityKgPerM3
                / reference.MolarMassKgPerMol
                / criticalDensityMolPerM3
        );

    internal static double PsiAt(double[] psi, double x)
    {
        var sum = 0.0;
        for (var i = psi.Length - 1; i >= 0; i--)
            sum = (sum * x) + psi[i];
        return sum;
    }
}
