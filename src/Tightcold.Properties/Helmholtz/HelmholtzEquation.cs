namespace Tightcold.Properties.Helmholtz;

/// <summary>An equation of state in the form a / (R T) = alpha0(tau, delta) + alphar(tau, delta), with its own gas
/// constant.</summary>
internal sealed class HelmholtzEquation
{
    public HelmholtzEquation(
        double gasConstant,
        double molarMass,
        double reducingTemperature,
        double reducingMolarDensity,
        IdealPart ideal,
        ResidualPart residual
    )
    {
        SpecificGasConstant = gasConstant / molarMass;
        ReducingTemperatureK = reducingTemperature;
        ReducingDensityKgPerM3 = reducingMolarDensity * molarMass;
        Ideal = ideal;
        Residual = residual;
    }

    /// <summary>R / M of this equation, J/(kg K).</summary>
    public double SpecificGasConstant { get; }

    public double ReducingTemperatureK { get; }

    public double ReducingDensityKgPerM3 { get; }

    public IdealPart Ideal { get; }

    public ResidualPart Residual { get; }
}
