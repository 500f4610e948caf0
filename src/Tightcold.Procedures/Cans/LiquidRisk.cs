using Tightcold.Properties;

namespace Tightcold.Procedures.Cans;

/// <summary>Liquid let into the low side of a running compressor: how much of it the suction gas cannot
/// evaporate.</summary>
/// <param name="FlashedShare">Evaporates at once behind the valve, 0 to 1.</param>
/// <param name="MostSafeKgPerS">Liquid rate that the superheat of the suction gas can just evaporate.</param>
/// <param name="ReachesCompressorKgPerS">Liquid beyond that: it reaches the compressor.</param>
public readonly record struct LiquidRisk(double FlashedShare, double MostSafeKgPerS, double ReachesCompressorKgPerS)
{
    /// <summary>
    /// Throttling at constant enthalpy gives x = (h′(T_can) − h′(p))/r(p); the rest needs r(p) per kilogram, and the
    /// suction gas has ṁ·c_p·ΔT_superheat to give. Heat from hoses is left out: the cautious side. First law; c_p from
    /// the equation of state.
    /// </summary>
    /// <param name="fluid">The refrigerant.</param>
    /// <param name="canK">Temperature of the liquid.</param>
    /// <param name="lowPa">Low side, absolute.</param>
    /// <param name="liquidKgPerS">Through the can's valve.</param>
    /// <param name="suctionKgPerS">What the compressor circulates: 15 to 60 g/s in cars; common practice.</param>
    /// <param name="superheatK">Of the suction gas where the liquid meets it, 0 or more.</param>
    public static LiquidRisk Of(
        Fluid fluid,
        double canK,
        double lowPa,
        double liquidKgPerS,
        double suctionKgPerS,
        double superheatK
    )
    {
        if (!(liquidKgPerS >= 0 && suctionKgPerS >= 0 && superheatK >= 0))
            throw new ArgumentOutOfRangeException(
                nameof(liquidKgPerS),
                liquidKgPerS,
                "rates and superheat of 0 or more are needed"
            );
        var low = fluid.SaturationAtPressure(lowPa);
        var liquid = fluid.SaturationAtTemperature(canK).LiquidEnthalpyJPerKg;
        var flashed = Math.Clamp((liquid - low.LiquidEnthalpyJPerKg) / low.LatentHeatJPerKg, 0, 1);
        var vapourCp =
            superheatK > 0
                ? (
                    fluid.AtTemperaturePressure(low.TemperatureK + superheatK, lowPa).EnthalpyJPerKg
                    - low.VapourEnthalpyJPerKg
                ) / superheatK
                : 0;
        var evaporates = suctionKgPerS * vapourCp * superheatK / low.LatentHeatJPerKg;
        var safe = flashed >= 1 ? double.MaxValue : evaporates / (1 - flashed);
        return new(flashed, safe, Math.Max(0, liquidKgPerS * (1 - flashed) - evaporates));
    }
}
