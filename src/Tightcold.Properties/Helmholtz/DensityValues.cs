namespace Tightcold.Properties.Helmholtz;

/// <summary>The part of <see cref="HelmholtzValues"/> that pressure and Gibbs energy along an isotherm need.</summary>
internal readonly record struct DensityValues(double A, double D, double DD)
{
    /// <summary>p / (rho R T).</summary>
    public double Compressibility => 1 + D;

    /// <summary>(dp/drho at constant T) / (R T).</summary>
    public double Stiffness => 1 + (2 * D) + DD;
}
