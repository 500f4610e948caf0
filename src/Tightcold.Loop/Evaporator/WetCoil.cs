using Tightcold.Loop.Air;
using Tightcold.Loop.Refrigerant;
using Tightcold.Numerics.Smoothing;

namespace Tightcold.Loop.Evaporator;

/// <summary>
/// The evaporator as a coil that may be wet: with boiling refrigerant over the whole face its duty is the larger of the
/// dry and the wet one (the usual selector, e.g. J. E. Braun et al., ASHRAE Trans. 95(2), 1989, 164), rounded where
/// they cross. What boils dry before the end superheats against the inlet air in the rest.
/// </summary>
internal struct WetCoil
{
    // Rounding of the wet-dry selector, share of the duty: half of it is added where both are equal.
    private const double SelectorRounding = 0.02;

    public double AirInK;
    public double AirInEnthalpy;
    public double AirInRatio;

    /// <summary>Dry air, kg/s.</summary>
    public double AirFlow;

    /// <summary>Air-side heat capacity rate, W/K.</summary>
    public double AirCapacity;

    public double DryEffectiveness;

    /// <summary>cp over air-side conductance and 1 over refrigerant-side conductance.</summary>
    public double AirResistance,
        RefrigerantResistance;

    public double BarometricPa;

    /// <summary>Duty of the whole face with boiling refrigerant at a temperature, W; negative above the air's
    /// temperature.</summary>
    public readonly double FullFaceDuty(double evaporatingK)
    {
        var saturated = MoistAirLaw.SaturatedEnthalpy(evaporatingK, BarometricPa, out var slope, out _);
        var wet = 1 - Math.Exp(-1 / ((AirResistance + (slope * RefrigerantResistance)) * AirFlow));
        var dryDuty = AirCapacity * DryEffectiveness * (AirInK - evaporatingK);
        var wetDuty = AirFlow * wet * (AirInEnthalpy - saturated);
        return Smooth.Max(dryDuty, wetDuty, SelectorRounding * Math.Abs(dryDuty));
    }

    /// <summary>Outlet of the refrigerant, J/kg, and the share of the face that boils.</summary>
    public readonly double Outlet(
        in SaturationRow row,
        double flow,
        double inletEnthalpy,
        double fullDuty,
        out double boilingShare
    )
    {
        var needed = flow * (row.VapourEnthalpy - inletEnthalpy);
        if (needed >= fullDuty)
        {
            boilingShare = 1;
            return inletEnthalpy + (fullDuty / flow);
        }

        // Vapour that enters superheated boils nowhere and starts from its own temperature.
        double start = 0;
        boilingShare = needed / fullDuty;
        if (needed < 0)
        {
            boilingShare = 0;
            start = row.SuperheatAtEnthalpy(inletEnthalpy);
        }

        var span = AirInK - row.TemperatureK - start;
        var x =
            start
            + (span * -Math.Exp(-(1 - boilingShare) * AirCapacity * DryEffectiveness / (flow * row.VapourCp)))
            + span;
        return row.SuperheatedEnthalpy(x);
    }

    /// <summary>Air behind the coil for a duty at an evaporating temperature; the energy balance with the condensate
    /// closes exactly.</summary>
    public readonly void AirOut(
        double evaporatingK,
        double duty,
        out double temperatureK,
        out double ratio,
        out double condensate
    )
    {
        var saturated = MoistAirLaw.SaturatedEnthalpy(evaporatingK, BarometricPa, out _, out var saturatedRatio);
        var possible = AirFlow * (AirInEnthalpy - saturated);
        var contact = possible > 1 ? Math.Min(duty / possible, 1) : 0;
        // Below this difference the coil is dry; rounded over 0.2 g/kg.
        var surplus = Math.Max(0, Smooth.Max(AirInRatio - saturatedRatio, 0, 2e-4) - 1e-4);
        ratio = AirInRatio - (contact * Math.Min(surplus, AirInRatio));
        condensate = AirFlow * (AirInRatio - ratio);
        var water = condensate * MoistAirLaw.WaterCp * (evaporatingK - MoistAirLaw.Zero);
        temperatureK = MoistAirLaw.TemperatureK(AirInEnthalpy - ((duty + water) / AirFlow), ratio);
    }
}
