using Tightcold.Loop.Refrigerant;
using Tightcold.Numerics.Smoothing;

namespace Tightcold.Loop.Expansion;

/// <summary>What flows through an expansion valve or an orifice tube, kg/s; negative when pressure stands against
/// it.</summary>
internal static class Throttle
{
    // Pressure difference under which flow turns laminar and linear, Pa: keeps the slope finite at no difference.
    private const double LaminarPa = 2e3;

    // Of a vapour's inlet pressure only about half drives the flow before it chokes (kappa 1.1).
    private const double ChokedShare = 0.5;

    // Superheat that a wet outlet counts for at the bulb, K per unit of liquid: shuts the valve further, smoothly.
    private const double WetBulbK = 8;

    /// <summary>Opening of the thermostatic valve, share of its rating.</summary>
    public static double Opening(double superheatK, double staticK, double openingK, double bleed, double most)
    {
        var o = (superheatK - staticK) / openingK;
        return Smooth.Max(bleed, Smooth.Min(o, most, 0.05), 0.05);
    }

    /// <summary>Superheat as the bulb feels it; below zero for a wet outlet.</summary>
    public static double BulbSuperheat(in SaturationRow row, double enthalpy) =>
        enthalpy >= row.VapourEnthalpy
            ? row.SuperheatAtEnthalpy(enthalpy)
            : -WetBulbK * Math.Min(1, (row.VapourEnthalpy - enthalpy) / row.Latent);

    /// <summary>Flow of the valve: m = A sqrt(2 rho dp) with the homogeneous density of a flashing inlet.</summary>
    /// <param name="volume">Specific volume of the inlet's state, m3/kg.</param>
    public static double Valve(in SaturationRow inlet, double enthalpy, double volume, double areaM2, double outletPa)
    {
        var quality = (enthalpy - inlet.LiquidEnthalpy) / inlet.Latent;
        var drive = Drive(inlet.PressurePa, outletPa, quality);
        return areaM2 * Math.Sqrt(2 / volume) * Rooted(drive);
    }

    /// <summary>
    /// Flow of the tube: the subcooled form of Payne and O'Neal [payneOneal2004] (HVAC and R Research 10, 2004), beyond
    /// 10 K of subcooling carried on with the root of the pressure above flashing; a wet inlet goes over to choked
    /// vapour as our own fit to that paper's two-phase factor at 15 bar (docs/physics/loop.md).
    /// </summary>
    public static double Tube(
        in SaturationRow inlet,
        double enthalpy,
        double diameterM,
        double lengthM,
        double outletPa,
        double criticalK,
        double criticalPa
    )
    {
        var area = 0.25 * Math.PI * diameterM * diameterM;
        var subcooling = (inlet.LiquidEnthalpy - enthalpy) / inlet.LiquidCp;
        var p = inlet.PressurePa;
        double flow,
            flashPa;
        if (subcooling > 0)
        {
            flashPa = FlashPa(inlet, subcooling);
            var kept = Math.Min(subcooling, MostSubcoolingK);
            var keptPa = subcooling > MostSubcoolingK ? FlashPa(inlet, kept) : flashPa;
            flow = Subcooled(inlet, kept, keptPa, diameterM, lengthM, criticalK, criticalPa, area);
            if (subcooling > MostSubcoolingK)
                flow *= Math.Sqrt((p - flashPa) / (p - keptPa));
        }
        else
        {
            flashPa = p;
            var saturated = Subcooled(inlet, 0, p, diameterM, lengthM, criticalK, criticalPa, area);
            var quality = Math.Max(0, -subcooling * inlet.LiquidCp / inlet.Latent);
            // 0.32: discharge of vapour through a tube of that length, friction included (assumed).
            var vapour =
                0.32 * area * Math.Sqrt(2 * ChokedShare * p / inlet.VolumeAt(Math.Max(enthalpy, inlet.VapourEnthalpy)));
            flow = vapour + ((saturated - vapour) * Math.Exp(-Math.Pow(quality / 0.2, 1.3)));
        }

        // Choked until the outlet comes near the flashing pressure [kimOneal1995]; then it dies away.
        var room = Math.Max(p - flashPa, 0.25 * p);
        return flow * Rooted(Smooth.Min((p - outletPa) / room, 1, 0.02) * p) / Math.Sqrt(p);
    }

    private const double MostSubcoolingK = 10;

    private static double Subcooled(
        in SaturationRow inlet,
        double subcoolingK,
        double flashPa,
        double diameterM,
        double lengthM,
        double criticalK,
        double criticalPa,
        double area
    )
    {
        var pi3 = (inlet.PressurePa - flashPa) / criticalPa;
        var pi6 = inlet.VapourDensity / inlet.LiquidDensity;
        var pi9 = subcoolingK / criticalK;
        var pi1 =
            (0.38811 + (11.427 * pi3) - (14.194 * pi9) + (1.0703 * pi6) - (0.091928 * Math.Log(lengthM / diameterM)))
            / (1 + (21.425 * pi3) - (581.95 * pi9 * pi9));
        return area * Math.Max(pi1, 0.02) * Math.Sqrt(inlet.LiquidDensity * criticalPa);
    }

    // Clausius-Clapeyron from the row: ln(p/pflash) = B (1/T - 1/Tsat), B = T hfg / (p dv).
    private static double FlashPa(in SaturationRow row, double subcoolingK)
    {
        var b = row.TemperatureK * row.Latent / (row.PressurePa * (row.VapourVolume - (1 / row.LiquidDensity)));
        return row.PressurePa * Math.Exp(-b * subcoolingK / (row.TemperatureK * (row.TemperatureK - subcoolingK)));
    }

    private static double Drive(double inletPa, double outletPa, double quality)
    {
        var vapour =
            quality < 0 ? 0
            : quality > 1 ? 1
            : quality;
        return Smooth.Min(inletPa - outletPa, inletPa * (1 - (ChokedShare * vapour)), 0.01 * inletPa);
    }

    private static double Rooted(double drive) => drive / Math.Sqrt(Math.Abs(drive) + LaminarPa);
}
