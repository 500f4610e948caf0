using System.Collections.Immutable;

namespace Tightcold.Procedures.Hold;

/// <summary>What is thought of a hold before the first reading. Assumed throughout; docs/physics/hold.md says how
/// much each matters.</summary>
public static class HoldPrior
{
    /// <summary>In the order of <see cref="HoldExplanation"/>.</summary>
    public static readonly ImmutableArray<double> Odds = [0.20, 0.22, 0.14, 0.11, 0.06, 0.11, 0.05, 0.04, 0.07];

    /// <summary>Air inflow of a leak at full vacuum, log-uniform, Pa·m³/s: from a hundredth of a gram of air a year to
    /// a hose that is off.</summary>
    public const double LeastLeakPaM3PerS = 1e-8;
    public const double MostLeakPaM3PerS = 1e-2;

    /// <summary>Oil gas still to come, log-uniform, Pa; up to 1000 micron (133 Pa) is normal, common
    /// practice.</summary>
    public const double LeastOilGasPa = 2;
    public const double MostOilGasPa = 140;
    public const double LeastOilSeconds = 180;
    public const double MostOilSeconds = 3600;

    /// <summary>Plateau of water as a share of its saturation pressure, log-uniform. The trade reads levels of 1000 to
    /// 2000 micron (133 to 267 Pa) at workshop heat as wet: a few hundredths of the 2339 Pa at 20 °C.</summary>
    public const double LeastWaterShare = 0.03;
    public const double LeastWaterSeconds = 60;
    public const double MostWaterSeconds = 3600;

    /// <summary>Relative change of pressure per kelvin beyond nothing: from the gas law's 0.0034 to 0.075, as water and
    /// gas dissolved in oil have it.</summary>
    public const double LeastDriftPerK = 0.0034;
    public const double MostDriftPerK = 0.075;

    /// <summary>Without temperatures the parts may have changed by this much over the hold, K, one standard
    /// deviation.</summary>
    public const double UnknownDriftK = 3;

    public static bool HasLeak(HoldExplanation explanation) =>
        explanation
            is HoldExplanation.Leak
                or HoldExplanation.HoseLeak
                or HoldExplanation.LeakAndOilGas
                or HoldExplanation.LeakAndMoisture
                or HoldExplanation.LeakAndTemperature;

    public static bool HasWater(HoldExplanation explanation) =>
        explanation is HoldExplanation.Moisture or HoldExplanation.LeakAndMoisture;

    internal static bool HasOilGas(HoldExplanation explanation) =>
        explanation is HoldExplanation.OilGas or HoldExplanation.LeakAndOilGas;

    internal static bool HasDrift(HoldExplanation explanation) =>
        explanation is HoldExplanation.TemperatureDrift or HoldExplanation.LeakAndTemperature;
}
