using Tightcold.Loop.Condenser;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Refrigerant;
using Tightcold.Loop.Solving;
using Tightcold.Numerics.Smoothing;

namespace Tightcold.Loop.Inventory;

/// <summary>Refrigerant in every part of the running circuit, kg: what makes the charge an input of the
/// solve.</summary>
internal static class ChargeInventory
{
    // The accumulator starts to keep liquid when the evaporator's outlet is wetter than its oil bleed hole passes on.
    private const double BleedQuality = 0.97;
    private const double BleedBand = 0.06;

    // Hoses swell and liquid yields where liquid stands under pressure: 2 g a bar in an ordinary car (assumed). Without
    // it an overfull circuit has no steady state between a high pressure and the cut-out.
    private const double HoseYieldKgPerPa = 2e-8;

    public static double Sum(
        in LoopCase c,
        in SaturationRow suction,
        in SaturationRow discharge,
        in SaturationRow evaporator,
        in SaturationRow inlet,
        in StripMarch strips,
        double dischargeVolume,
        double suctionVolume,
        double inletVolume,
        ref LoopPoint q
    )
    {
        var d = c.Design;
        var condenser = (strips.LiquidKg * d.HoldupFactor) + strips.VapourKg;
        var lines =
            (d.SuctionVolumeM3 / suctionVolume)
            + (d.DischargeVolumeM3 / dischargeVolume)
            + (d.LiquidLineVolumeM3 / inletVolume);
        var shell = d.CompressorVolumeM3 * 0.5 * ((1 / suctionVolume) + (1 / dischargeVolume));
        condenser +=
            HoseYieldKgPerPa
            * (d.InternalVolumeM3 / 2.6e-3)
            * q.LiquidShare
            * Smooth.Max(q.CondenserPa - c.AirSaturationPa, 0, 0.5e5);
        return condenser
            + Evaporator(c, evaporator, q)
            + Store(c, suction, inlet, suctionVolume, inletVolume, ref q)
            + lines
            + shell
            + Dissolved(c, suction, q.SuctionK);
    }

    private static double Evaporator(in LoopCase c, in SaturationRow row, in LoopPoint q)
    {
        var volume = c.Design.EvaporatorVolumeM3;
        var inletQuality = Share((q.H4 - row.LiquidEnthalpy) / row.Latent);
        var outletQuality = Share((q.H1Next - row.LiquidEnthalpy) / row.Latent);
        var alpha = VoidFraction.Mean(
            inletQuality,
            Math.Max(outletQuality, inletQuality),
            VoidFraction.Slip(row.VapourDensity, row.LiquidDensity)
        );
        var boiling = volume * q.BoilingShare;
        var superheated = volume - boiling;
        var dry =
            superheated > 0
                ? superheated
                    / row.SuperheatedVolume(0.5 * row.SuperheatAtEnthalpy(Math.Max(q.H1Next, row.VapourEnthalpy)))
                : 0;
        return (boiling * (((1 - alpha) * row.LiquidDensity * c.Design.HoldupFactor) + (alpha * row.VapourDensity)))
            + dry;
    }

    private static double Store(
        in LoopCase c,
        in SaturationRow suction,
        in SaturationRow inlet,
        double suctionVolume,
        double inletVolume,
        ref LoopPoint q
    )
    {
        var volume = c.Design.StoreVolumeM3;
        if (c.Expansion == ExpansionKind.ExpansionValve)
        {
            // With no liquid arriving the receiver holds the vapour that flows through it.
            var without = q.LineQuality > 1 ? 1 / inletVolume : inlet.VapourDensity;
            var liquid = q.LineQuality < 0 ? 1 / inletVolume : inlet.LiquidDensity;
            q.StoreRangeKg = volume * (liquid - without);
            return (volume * without) + (q.StoreLevel * q.StoreRangeKg);
        }

        q.StorePlace = (BleedQuality - q.EvaporatorOutQuality) / BleedBand;
        q.StoreLevel = Smooth.Step(q.StorePlace);
        var vapour = 1 / Math.Max(suctionVolume, suction.VapourVolume);
        q.StoreRangeKg = volume * (suction.LiquidDensity - vapour);
        return (volume * vapour) + (q.StoreLevel * q.StoreRangeKg);
    }

    /// <summary>
    /// Refrigerant dissolved in the oil. Volume fraction 0.38 (p/psat)^1.25: a fit of ours to the Flory-Huggins law
    /// with chi 0.45 at p/psat 0.4 to 1 (0.12 at 0.4, 0.18 at 0.54).
    /// </summary>
    private static double Dissolved(in LoopCase c, in SaturationRow suction, double oilK)
    {
        var b =
            suction.TemperatureK
            * suction.Latent
            / (suction.PressurePa * (suction.VapourVolume - (1 / suction.LiquidDensity)));
        var warmer = Math.Max(0, oilK - suction.TemperatureK);
        var fraction = 0.38 * Math.Exp(-1.25 * b * warmer / (suction.TemperatureK * (suction.TemperatureK + warmer)));
        return c.OilKg * OilDensityRatio * fraction / (1 - fraction);
    }

    // Liquid refrigerant is about a fifth denser than the oil it dissolves in.
    private const double OilDensityRatio = 1.2;

    private static double Share(double quality) =>
        quality < 0 ? 0
        : quality > 1 ? 1
        : quality;
}
