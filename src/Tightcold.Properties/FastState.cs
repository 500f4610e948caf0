namespace Tightcold.Properties;

/// <summary>A state from the fast layer: the reference equation interpolated. SI units, per kilogram, absolute
/// pressure.</summary>
public readonly record struct FastState(
    double TemperatureK,
    double PressurePa,
    double DensityKgPerM3,
    double EnthalpyJPerKg,
    double EntropyJPerKgK,
    double? Quality,
    FluidPhase Phase
);
