using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>A published thermal conductivity correlation. SI units.</summary>
internal abstract class ConductivityModel
{
    /// <summary>Thermal conductivity, W/(m K), at a state of the given viscosity.</summary>
    public abstract double Evaluate(in PointProperties point, double viscosityPaS);

    /// <summary>What density adds, critical enhancement apart; only where the correlation is such a sum.</summary>
    public virtual double Background(double temperatureK, double densityKgPerM3) =>
        throw new NotSupportedException("This conductivity correlation has no separate background term.");
}
