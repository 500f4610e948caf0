namespace Tightcold.Properties;

/// <summary>
/// One equilibrium state of a pure fluid, per kilogram, SI units, absolute pressure.
/// Made by a <see cref="Fluid"/>; every number in it is finite.
/// </summary>
public readonly record struct FluidState
{
    public required double TemperatureK { get; init; }

    public required double PressurePa { get; init; }

    public required double DensityKgPerM3 { get; init; }

    public required double EnthalpyJPerKg { get; init; }

    public required double EntropyJPerKgK { get; init; }

    public required double InternalEnergyJPerKg { get; init; }

    /// <summary>Isobaric heat capacity; null strictly inside the two-phase region, where temperature does not rise with
    /// heat.</summary>
    public double? CpJPerKgK { get; init; }

    /// <summary>Isochoric heat capacity; null strictly inside the two-phase region.</summary>
    public double? CvJPerKgK { get; init; }

    /// <summary>Speed of sound; null strictly inside the two-phase region.</summary>
    public double? SpeedOfSoundMPerS { get; init; }

    /// <summary>Fugacity, Pa; in the two-phase region that of either phase.</summary>
    public required double FugacityPa { get; init; }

    /// <summary>dT/dp at constant enthalpy, K/Pa; null strictly inside the two-phase region.</summary>
    public double? JouleThomsonKPerPa { get; init; }

    /// <summary>dp/drho at constant temperature, Pa m3/kg; 0 inside the two-phase region.</summary>
    public required double PressureByDensityAtTemperature { get; init; }

    /// <summary>dp/dT at constant density, Pa/K; inside the two-phase region the slope of the saturation
    /// line.</summary>
    public required double PressureByTemperatureAtDensity { get; init; }

    /// <summary>Mass of vapour over mass, 0 to 1; null outside the two-phase region.</summary>
    public double? Quality { get; init; }

    public required FluidPhase Phase { get; init; }
}
