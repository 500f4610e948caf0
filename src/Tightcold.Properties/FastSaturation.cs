namespace Tightcold.Properties;

/// <summary>Saturation from the fast layer. SI units, absolute pressure.</summary>
public readonly record struct FastSaturation(
    double TemperatureK,
    double PressurePa,
    double LiquidDensityKgPerM3,
    double VapourDensityKgPerM3,
    double LiquidEnthalpyJPerKg,
    double VapourEnthalpyJPerKg,
    double LiquidEntropyJPerKgK,
    double VapourEntropyJPerKgK
);
