using Tightcold.Properties;

namespace Tightcold.Procedures.Charging;

/// <summary>Where and how the charge is weighed in: what heels and hoses keep follows from it.</summary>
/// <param name="TemperatureK">Of containers and hoses.</param>
/// <param name="SystemPa">Absolute pressure the containers are drawn down to: the running low side, or saturation at
/// rest; null when nobody read it.</param>
/// <param name="Liquid">Drawn as liquid (inverted, engine off).</param>
/// <param name="PurgeKg">Let through each hose to drive its air out at each change of container; 0 when hoses were
/// evacuated with the system.</param>
/// <param name="ScaleSigmaKg">Standard deviation of one scale reading, the pull of the hose included.</param>
public readonly record struct ChargeConditions(
    double TemperatureK,
    double? SystemPa,
    bool Liquid,
    double PurgeKg,
    double ScaleSigmaKg
)
{
    /// <summary>Common low sides, running: 2 to 3.5 bar absolute; common practice.</summary>
    private const double LeastUsualPa = 2.0e5;

    /// <summary>How the air is driven out of a hose, and what that costs; 1 to 3 g with a short burst, common
    /// practice.</summary>
    public const double BurstKg = 0.002;

    /// <summary>Vapour left in a container of this volume when nothing more comes: V·ρ(T, p).</summary>
    /// <returns>Least and most, kg: equal when the pressure was read.</returns>
    public (double LeastKg, double MostKg) Heel(Fluid fluid, double innerVolumeM3)
    {
        var saturation = fluid.SaturationAtTemperature(TemperatureK);
        var drawnDown = innerVolumeM3 * Vapour(fluid, saturation, SystemPa ?? LeastUsualPa);
        // Drawn as liquid, the vapour over it stays saturated until the end.
        return (drawnDown, Liquid || SystemPa is null ? innerVolumeM3 * saturation.VapourDensityKgPerM3 : drawnDown);
    }

    /// <summary>What a hose keeps: vapour at the system's pressure at the least; a hose full of liquid at the most when
    /// drawn so.</summary>
    public (double LeastKg, double MostKg) Hose(Fluid fluid, double hoseVolumeM3)
    {
        var saturation = fluid.SaturationAtTemperature(TemperatureK);
        var least = hoseVolumeM3 * Vapour(fluid, saturation, SystemPa ?? LeastUsualPa);
        return (
            least,
            hoseVolumeM3
                * (
                    Liquid ? saturation.LiquidDensityKgPerM3
                    : SystemPa is { } read ? Vapour(fluid, saturation, read)
                    : saturation.VapourDensityKgPerM3
                )
        );
    }

    private double Vapour(Fluid fluid, SaturationState saturation, double pressurePa) =>
        pressurePa >= saturation.PressurePa * 0.999
            ? saturation.VapourDensityKgPerM3
            : fluid.AtTemperaturePressure(TemperatureK, Math.Max(1e3, pressurePa)).DensityKgPerM3;
}
