using Tightcold.Properties;

namespace Tightcold.Procedures.Oil;

/// <summary>Water that an open circuit took up, against what a drier can hold.</summary>
/// <param name="LeastKg">By diffusion through the open ends alone.</param>
/// <param name="MostKg">With air drifting through the circuit.</param>
/// <param name="LeastShare">Of a good drier's capacity, 0 to 1 or above.</param>
/// <param name="MostShare">Of a small drier's capacity.</param>
public readonly record struct DrierExposure(double LeastKg, double MostKg, double LeastShare, double MostShare)
{
    /// <summary>Water vapour in air near 25 °C, m²/s; textbook value.</summary>
    private const double DiffusivityM2PerS = 2.5e-5;
    private const double OpeningM2 = 1.1e-4;
    private const double StubM = 0.05;
    private const double VapourGasConstant = 461.5;

    /// <summary>Draught through a circuit open at two ends, m³/s: up to about half a litre a minute; assumed, nobody
    /// measured it.</summary>
    private const double DriftM3PerS = 0.5e-3 / 60;

    /// <summary>30 to 60 g of molecular sieve that takes 15 to 18 % of its mass: 4 to 10 g of water (trade's figure,
    /// from memory).</summary>
    private const double SmallDrierKg = 4e-3;
    private const double LargeDrierKg = 10e-3;

    /// <summary>From here on a drier is not trusted: half its capacity.</summary>
    public const double Spent = 0.5;

    public bool MayBeSpent => MostShare > Spent;

    /// <summary>
    /// Fick's law through n stubs, D·A/l·ρ_v, as the least; with n ≥ 2 open ends also a drift of air that leaves all
    /// its water, as the most; and once the air that fills the circuit.
    /// </summary>
    /// <param name="seconds">Open to air.</param>
    /// <param name="temperatureK">Of the air.</param>
    /// <param name="relativeHumidity">0 to 1.</param>
    /// <param name="openEnds">Open at once, 1 or more; a capped end is none.</param>
    /// <param name="volumeM3">Of the circuit.</param>
    public static DrierExposure Of(
        double seconds,
        double temperatureK,
        double relativeHumidity,
        int openEnds,
        double volumeM3
    )
    {
        if (!(seconds >= 0 && relativeHumidity is >= 0 and <= 1 && openEnds >= 1 && volumeM3 > 0))
            throw new ArgumentOutOfRangeException(
                nameof(seconds),
                seconds,
                "a time of 0 or more, humidity 0 to 1, one open end or more"
            );
        var vapour =
            relativeHumidity * WaterVapour.SaturationPressurePa(temperatureK) / (VapourGasConstant * temperatureK);
        var filling = volumeM3 * vapour;
        var least = filling + openEnds * DiffusivityM2PerS * OpeningM2 / StubM * vapour * seconds;
        var most = least + (openEnds >= 2 ? DriftM3PerS : 0.2 * DriftM3PerS) * vapour * seconds;
        return new(least, most, least / LargeDrierKg, most / SmallDrierKg);
    }
}
