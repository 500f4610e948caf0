using System.Runtime.CompilerServices;
using Tightcold.Loop.Inventory;
using Tightcold.Loop.Refrigerant;

namespace Tightcold.Loop.Condenser;

/// <summary>
/// The refrigerant's way through a share of the condenser's face where every strip sees fresh air: desuperheating,
/// condensing, subcooling, each in closed form (dT/dw = -g (T - Tair) / (m cp), integrated exactly). Continuous through
/// every end state: gas that never condenses, a wet outlet, a subcooled one.
/// </summary>
internal struct StripMarch
{
    /// <summary>Enthalpy where the march stands, J/kg.</summary>
    public double Enthalpy;

    /// <summary>Liquid held so far, kg, in slipping flow and as plain liquid.</summary>
    public double LiquidKg;

    /// <summary>Vapour held so far, kg.</summary>
    public double VapourKg;

    /// <summary>Share of the face that held plain liquid so far.</summary>
    public double LiquidShare;

    /// <summary>Conductances of the whole face in each zone, W/K: effectiveness times the air's heat capacity
    /// rate.</summary>
    public double VapourG,
        CondensingG,
        LiquidG;

    /// <summary>Goes through a share of the face.</summary>
    /// <param name="row">Properties at the condensing pressure.</param>
    /// <param name="flow">Refrigerant, kg/s, above 0.</param>
    /// <param name="airK">Air onto the face, K.</param>
    /// <param name="share">Share of the whole face, 0 to 1.</param>
    /// <param name="volumeM3">Inside of the whole condenser.</param>
    public void Through(in SaturationRow row, double flow, double airK, double share, double volumeM3)
    {
        var rest = share;
        if (Enthalpy > row.VapourEnthalpy)
            rest = Desuperheat(row, flow, airK, rest, volumeM3);
        if (rest > 0 && Enthalpy > row.LiquidEnthalpy)
            rest = Condense(row, flow, airK, rest, volumeM3);
        if (rest > 0)
            Subcool(row, flow, airK, rest, volumeM3);
    }

    private double Desuperheat(in SaturationRow row, double flow, double airK, double rest, double volumeM3)
    {
        var x = row.SuperheatAtEnthalpy(Enthalpy);
        var cp = x > 1e-9 ? (Enthalpy - row.VapourEnthalpy) / x : row.VapourCp;
        var rate = VapourG / (flow * cp);
        var inlet = row.TemperatureK + x - airK;
        var dew = row.TemperatureK - airK;
        var needed = dew > 0 && inlet > dew ? Math.Log(inlet / dew) / rate : double.PositiveInfinity;
        if (needed >= rest)
        {
            var outlet = Math.Max(0, airK + (inlet * Math.Exp(-rate * rest)) - row.TemperatureK);
            HoldVapour(row, x, airK, rate, rest, volumeM3);
            Enthalpy = row.VapourEnthalpy + (cp * outlet);
            return 0;
        }

        HoldVapour(row, x, airK, rate, needed, volumeM3);
        Enthalpy = row.VapourEnthalpy;
        return rest - needed;
    }

    /// <summary>
    /// Vapour in a share of the face along which it nears the air's temperature exponentially, with 1/rho = (1 + b
    /// x)/rho_v: the integral itself, so that cutting the face in two changes nothing and condensation sets in without
    /// a jump.
    /// </summary>
    private void HoldVapour(
        in SaturationRow row,
        double inletSuperheat,
        double airK,
        double rate,
        double share,
        double volumeM3
    )
    {
        var b =
            inletSuperheat > 1e-6
                ? ((row.SuperheatedVolume(inletSuperheat) / row.VapourVolume) - 1) / inletSuperheat
                : 0.004;
        var c = Math.Max(1 + (b * (airK - row.TemperatureK)), 0.2);
        var d = b * (inletSuperheat - (airK - row.TemperatureK));
        var integral = (share / c) + (Math.Log((c + (d * Math.Exp(-rate * share))) / (c + d)) / (rate * c));
        VapourKg += volumeM3 * row.VapourDensity * integral;
    }

    private double Condense(in SaturationRow row, double flow, double airK, double rest, double volumeM3)
    {
        var latent = row.Latent;
        var inlet = (Enthalpy - row.LiquidEnthalpy) / latent;
        var duty = CondensingG * (row.TemperatureK - airK);
        var needed = duty > 0 ? flow * (Enthalpy - row.LiquidEnthalpy) / duty : double.PositiveInfinity;
        if (needed >= rest)
        {
            Enthalpy = Math.Min(Enthalpy - (duty * rest / flow), row.VapourEnthalpy);
            Hold(row, rest, (Enthalpy - row.LiquidEnthalpy) / latent, inlet, volumeM3);
            return 0;
        }

        Enthalpy = row.LiquidEnthalpy;
        Hold(row, needed, 0, inlet, volumeM3);
        return rest - needed;
    }

    private void Subcool(in SaturationRow row, double flow, double airK, double rest, double volumeM3)
    {
        var inlet = row.TemperatureK - ((row.LiquidEnthalpy - Enthalpy) / row.LiquidCp);
        var outlet = airK + ((inlet - airK) * Math.Exp(-LiquidG * rest / (flow * row.LiquidCp)));
        // Liquid that enters colder than the air cannot boil here: it stops at saturation.
        outlet = Math.Min(outlet, row.TemperatureK);
        Enthalpy = row.LiquidEnthalpy - (row.LiquidCp * (row.TemperatureK - outlet));
        LiquidKg += rest * volumeM3 * row.SubcooledDensity(row.TemperatureK - (0.5 * (inlet + outlet)));
        LiquidShare += rest;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Hold(in SaturationRow row, double share, double outlet, double inlet, double volumeM3)
    {
        var alpha = VoidFraction.Mean(outlet, inlet, VoidFraction.Slip(row.VapourDensity, row.LiquidDensity));
        LiquidKg += share * volumeM3 * (1 - alpha) * row.LiquidDensity;
        VapourKg += share * volumeM3 * alpha * row.VapourDensity;
    }
}
