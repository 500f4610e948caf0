using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>A published viscosity correlation. SI units.</summary>
internal abstract class ViscosityModel
{
    /// <summary>Viscosity of the dilute gas, Pa s.</summary>
    public abstract double Dilute(double temperatureK);

    /// <summary>Viscosity at a state, Pa s.</summary>
    public abstract double Evaluate(in PointProperties point);

    /// <summary>What density adds to the dilute gas, Pa s; only where the correlation is such a sum.</summary>
    public virtual double Background(double temperatureK, double densityMolPerM3) =>
        throw new NotSupportedException("This viscosity correlation has no separate background term.");

    /// <summary>
    /// The dilute gas by kinetic theory with the Lennard-Jones collision integral of Neufeld et al. [neufeld1972] (J.
    /// Chem. Phys. 57, 1100, 1972): 26.692e-9 sqrt(M T) / (sigma^2 Omega), M in g/mol, sigma in nm.
    /// </summary>
    protected static double KineticTheory(
        double temperatureK,
        double molarMassKgPerMol,
        double sigmaM,
        double epsilonOverK
    )
    {
        var t = temperatureK / epsilonOverK;
        var omega =
            (1.16145 * Math.Pow(t, -0.14874)) + (0.52487 * Math.Exp(-0.77320 * t)) + (2.16178 * Math.Exp(-2.43787 * t));
        var sigma = 1e9 * sigmaM;
        return 26.692e-9 * Math.Sqrt(1000 * molarMassKgPerMol * temperatureK) / (sigma * sigma * omega);
    }
}
