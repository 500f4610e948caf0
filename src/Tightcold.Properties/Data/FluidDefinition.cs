using Tightcold.Properties.Helmholtz;
using Tightcold.Properties.Transport;

namespace Tightcold.Properties.Data;

/// <summary>What a fluid file says, ready for use.</summary>
internal sealed record FluidDefinition
{
    public required string Name { get; init; }

    public required string DisplayName { get; init; }

    public required string EquationKey { get; init; }

    public required string ChemicalName { get; init; }

    public required bool IsPseudoPure { get; init; }

    public required double MolarMassKgPerMol { get; init; }

    public required double GasConstantJPerMolK { get; init; }

    public required double AcentricFactor { get; init; }

    public required double CriticalTemperatureK { get; init; }

    public required double CriticalPressurePa { get; init; }

    public required double CriticalDensityKgPerM3 { get; init; }

    public required double MinTemperatureK { get; init; }

    public required double MaxTemperatureK { get; init; }

    public required double MaxPressurePa { get; init; }

    public required TableRange TableRange { get; init; }

    public required string ReferenceState { get; init; }

    public required HelmholtzEquation Equation { get; init; }

    public Ancillary? SaturationPressure { get; init; }

    public Ancillary? LiquidDensity { get; init; }

    public Ancillary? VapourDensity { get; init; }

    public SurfaceTension? SurfaceTension { get; init; }

    public ViscosityModel? Viscosity { get; init; }

    public ConductivityModel? Conductivity { get; init; }

    public required IReadOnlyList<SourceReference> Sources { get; init; }
}
