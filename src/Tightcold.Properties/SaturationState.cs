namespace Tightcold.Properties;

/// <summary>Liquid and vapour in equilibrium at one temperature: equal pressure and equal Gibbs energy. SI units,
/// absolute pressure.</summary>
public readonly record struct SaturationState
{
    public required double TemperatureK { get; init; }

    public required double PressurePa { get; init; }

    public required double LiquidDensityKgPerM3 { get; init; }

    public required double VapourDensityKgPerM3 { get; init; }

    public required double LiquidEnthalpyJPerKg { get; init; }

    public required double VapourEnthalpyJPerKg { get; init; }

    public required double LiquidEntropyJPerKgK { get; init; }

    public required double VapourEntropyJPerKgK { get; init; }

    /// <summary>Heat of vaporisation, J/kg.</summary>
    public double LatentHeatJPerKg => VapourEnthalpyJPerKg - LiquidEnthalpyJPerKg;

    /// <summary>dp/dT along the saturation line by Clapeyron's equation, Pa/K; zero width of the dome has no slope here
    /// and gives 0.</summary>
    public double PressureSlopePaPerK
    {
        get
        {
            var swelling = (1 / VapourDensityKgPerM3) - (1 / LiquidDensityKgPerM3);
            return swelling > 0 ? (VapourEntropyJPerKgK - LiquidEntropyJPerKgK) / swelling : 0;
        }
    }
}
