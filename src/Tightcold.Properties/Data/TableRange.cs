namespace Tightcold.Properties.Data;

/// <summary>The range of temperature and pressure that the fast layer of a fluid covers.</summary>
public sealed record TableRange(
    double MinTemperatureK,
    double MaxTemperatureK,
    double MinPressurePa,
    double MaxPressurePa
);
