using Tightcold.Properties;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Masses of water left inside, log-spaced, with the share of saturation that each keeps up.</summary>
internal static class WaterGrid
{
    public const int Count = 14;
    private const double LeastKg = 1e-5,
        MostKg = 20e-3;

    /// <summary>PAG and POE oils take up 2 to 4 % of water at saturation, nearly in proportion to its share;
    /// assumed.</summary>
    private const double OilTakesUp = 0.03;
    private const double OilKgPerM3 = 990;
    private const double WaterMolarMassKgPerMol = 0.018015,
        GasConstant = 8.314462618;

    public static readonly double[] Kilograms =
    [
        .. Enumerable.Range(0, Count).Select(i => LeastKg * Math.Pow(MostKg / LeastKg, i / (Count - 1.0))),
    ];

    public const double StepLog = 0.5847;

    /// <summary>Share of saturation at which this much is at rest in oil and gas space; 1 when liquid or ice is
    /// left.</summary>
    public static double Share(double kilograms, CircuitSize size, double temperatureK)
    {
        var inGas =
            size.VolumeM3
            * WaterVapour.SaturationPressurePa(temperatureK)
            * WaterMolarMassKgPerMol
            / (GasConstant * temperatureK);
        return Math.Min(1, kilograms / (OilKgPerM3 * size.OilM3 * OilTakesUp + inGas));
    }
}
