using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>Conductivity by extended corresponding states (McLinden, Klein, Perkins 2000): R-12 from R-134a.</summary>
internal sealed class CorrespondingConductivity : ConductivityModel
{
    public required CorrespondingViscosity Viscosity { get; init; }

    public required HelmholtzEquation Equation { get; init; }

    public required double PsiDensityMolPerM3 { get; init; }

    public required double[] Psi { get; init; }

    public required double[] InternalFactor { get; init; }

    public required CriticalEnhancement Critical { get; init; }

    public override double Evaluate(in PointProperties point, double viscosityPaS)
    {
        var reference = Viscosity.Reference.Value;
        var density = point.DensityKgPerM3 / Viscosity.MolarMassKgPerMol;
        if (
            CorrespondingViscosity.Conformal(
                reference,
                point,
                density,
                Viscosity.CriticalTemperatureK,
                Viscosity.CriticalDensityMolPerM3
            )
            is not { } state
        )
            return double.NaN;
        var r = point.GasConstant;
        var tau = point.Tau;
        Equation.Ideal.Evaluate(tau, Math.Log(tau), out _, out _, out var curvature);
        var cp0 = r * (1 - curvature);
        // The correlation counts the dilute viscosity in uPa s and the internal heat capacity in kJ/(kg K).
        var dilute = 1e6 * Viscosity.Dilute(point.TemperatureK);
        var inner = CorrespondingViscosity.PsiAt(InternalFactor, point.TemperatureK) * dilute * (cp0 - (2.5 * r)) / 1e3;
        var translation = 15e-3 / 4 * (r / 1e3) * dilute;
        var f = point.TemperatureK / state.TemperatureK;
        var h = state.DensityMolPerM3 / density;
        var factor =
            Math.Sqrt(f) * Math.Pow(h, -2.0 / 3) * Math.Sqrt(reference.MolarMassKgPerMol / Viscosity.MolarMassKgPerMol);
        var background = reference.Definition.Conductivity!.Background(
            state.TemperatureK,
            state.DensityMolPerM3
                * CorrespondingViscosity.PsiAt(Psi, density / PsiDensityMolPerM3)
                * reference.MolarMassKgPerMol
        );
        return inner + translation + (factor * background) + Critical.Evaluate(point, viscosityPaS);
    }
}
