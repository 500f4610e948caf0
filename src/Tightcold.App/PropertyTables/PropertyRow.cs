using Tightcold.Properties;

namespace Tightcold.App.PropertyTables;

/// <summary>One evaluated state point, SI. Nulls where the state has no such property (inside the dome) or none is
/// published.</summary>
public readonly record struct PropertyRow(
    double TemperatureK,
    double PressurePa,
    double DensityKgPerM3,
    double EnthalpyJPerKg,
    double EntropyJPerKgK,
    double? Quality,
    double? CpJPerKgK,
    double? CvJPerKgK,
    double? SpeedOfSoundMPerS,
    TransportState Transport,
    FluidPhase Phase
);
