namespace Tightcold.Properties.Saturation;

/// <summary>Close approximations along the saturation line, for starting guesses and for deciding phases far from
/// it.</summary>
internal readonly record struct SaturationEstimate(
    double TemperatureK,
    double PressurePa,
    double LiquidDelta,
    double VapourDelta,
    double LiquidEnthalpyJPerKg,
    double VapourEnthalpyJPerKg,
    double LiquidEntropyJPerKgK,
    double VapourEntropyJPerKgK
);
