using Tightcold.Loop.Compressor;
using Tightcold.Loop.Condenser;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Expansion;
using Tightcold.Loop.Inventory;
using Tightcold.Loop.Refrigerant;
using Tightcold.Numerics.Smoothing;

namespace Tightcold.Loop.Solving;

/// <summary>
/// Once round the circuit, explicitly: from the pressure at the compressor's inlet, the refrigerant's pressure at its
/// outlet and the enthalpy at the evaporator's outlet to the three residuals that vanish in the steady state. Taking
/// the pressures at the compressor as unknowns makes its flow, and with it every line loss, explicit.
/// </summary>
internal static class LoopMarch
{
    /// <summary>Table look-ups a march makes.</summary>
    public const int LookUps = 5;

    // Scale of the energy residual, J/kg: a tenth of the latent heat, so that 1e-8 of it closes even a circuit that
    // hardly condenses.
    private const double EnergyScale = 2e4;

    public static void Evaluate(in LoopCase c, double logSuction, double logDischarge, double h1, out LoopPoint q)
    {
        q = default;
        q.LogSuction = logSuction;
        q.LogDischarge = logDischarge;
        q.H1 = h1;
        c.Table.Row(logSuction, out var suction);
        c.Table.Row(logDischarge, out var discharge);
        Compress(c, suction, discharge, h1, ref q, out var suctionVolume, out var dischargeVolume);
        q.EvaporatorPa = suction.PressurePa + (c.SuctionDrop * q.Flow * q.Flow * suctionVolume);
        // dp/(1 + dp/p): for a small drop the drop itself; a large one cannot use up the pressure.
        q.CondenserPa = Behind(discharge.PressurePa, c.DischargeDrop * q.Flow * q.Flow * dischargeVolume);
        c.Table.Row(Math.Log(q.EvaporatorPa), out var evaporator);
        c.Table.Row(Math.Log(q.CondenserPa), out var condenser);
        q.EvaporatingK = evaporator.TemperatureK;
        q.CondensingK = condenser.TemperatureK;

        var strips = Condense(c, condenser, ref q);
        c.Table.Row(Math.Log(q.ValveInletPa), out var inlet);
        q.LineQuality = (q.H4 - inlet.LiquidEnthalpy) / inlet.Latent;
        var superheat = inlet.SuperheatOrNone(q.H4);
        q.ValveInletK = inlet.TemperatureAt(q.H4, superheat);
        var inletVolume = inlet.VolumeAt(q.H4, superheat);
        Evaporate(c, evaporator, inlet, inletVolume, ref q);
        q.ChargeKg = ChargeInventory.Sum(
            c,
            suction,
            discharge,
            evaporator,
            inlet,
            strips,
            dischargeVolume,
            suctionVolume,
            inletVolume,
            ref q
        );

        var through = Math.Abs(q.ThrottleFlow) + q.Flow;
        q.FlowResidual = 2 * (q.ThrottleFlow - q.Flow) / through;
        q.EnergyResidual = (q.H1Next - h1) / EnergyScale;
        q.ChargeResidual = (q.ChargeKg - c.ChargeKg) / c.ChargeKg;
    }

    private static void Compress(
        in LoopCase c,
        in SaturationRow suction,
        in SaturationRow discharge,
        double h1,
        ref LoopPoint q,
        out double suctionVolume,
        out double dischargeVolume
    )
    {
        q.SuctionPa = suction.PressurePa;
        q.DischargePa = discharge.PressurePa + c.AirPa;
        q.Stroke = 1;
        q.Rpm = c.Rpm;
        if (c.Kind == CompressorKind.Variable)
            q.Stroke = CapacityControl.Stroke(c, suction.PressurePa, q.DischargePa);
        else if (c.Kind == CompressorKind.Electric)
            q.Rpm = CapacityControl.ElectricRpm(c, suction.TemperatureK);

        var turns = c.DisplacementM3 * q.Stroke * q.Rpm / 60;
        q.EvaporatorOutK = suction.TemperatureAt(h1);
        // Suction line against the bay: UA over the flow the compressor would draw of dry saturated gas at 70 %.
        var warming = 1 - Math.Exp(-c.SuctionUa / (turns * suction.VapourDensity * suction.VapourCp));
        q.HSuction = h1 + (warming * suction.VapourCp * (c.BayK - q.EvaporatorOutK));
        var superheat = suction.SuperheatOrNone(q.HSuction);
        q.SuctionK = suction.TemperatureAt(q.HSuction, superheat);
        suctionVolume = suction.VolumeAt(q.HSuction, superheat);
        q.SuctionQuality = (q.HSuction - suction.LiquidEnthalpy) / suction.Latent;

        var ratio = q.DischargePa / q.SuctionPa;
        var logRatio = Math.Log(ratio);
        q.Volumetric = c.Compressor.Volumetric(logRatio, q.Rpm, q.Stroke);
        q.Isentropic = c.Compressor.Isentropic(ratio, q.Rpm);
        q.Flow = q.Volumetric * turns / suctionVolume;
        var ideal = Math.Max(discharge.EnthalpyAtEntropy(suction.EntropyAt(q.HSuction, superheat)) - q.HSuction, 0);
        q.HSuctionGasWork = ideal / q.Isentropic;
        q.HDischarge = q.HSuction + (q.HSuctionGasWork * (1 - c.ShellLossShare));
        var hot = discharge.SuperheatOrNone(q.HDischarge);
        q.DischargeK = discharge.TemperatureAt(q.HDischarge, hot);
        dischargeVolume = discharge.VolumeAt(q.HDischarge, hot);
    }

    private static StripMarch Condense(in LoopCase c, in SaturationRow condenser, ref LoopPoint q)
    {
        var strips = new StripMarch
        {
            Enthalpy = q.HDischarge,
            VapourG = c.VapourG,
            CondensingG = c.CondensingG,
            LiquidG = c.LiquidG,
        };
        var volume = c.Design.CondenserVolumeM3;
        strips.Through(condenser, q.Flow, c.CondenserAirK, 1 - c.SubcoolShare, volume);
        // The receiver sits here: it fills as the liquid that reaches it is subcooled by up to 1 K.
        if (c.Expansion == ExpansionKind.ExpansionValve)
        {
            q.StorePlace = (condenser.LiquidEnthalpy - strips.Enthalpy) / condenser.LiquidCp;
            q.StoreLevel = Smooth.Step(q.StorePlace);
        }

        if (c.SubcoolShare > 0)
            strips.Through(condenser, q.Flow, c.CondenserAirK, c.SubcoolShare, volume);
        q.H3 = strips.Enthalpy;
        q.LiquidShare = strips.LiquidShare;
        q.SubcoolingK = Math.Max(0, (condenser.LiquidEnthalpy - q.H3) / condenser.LiquidCp);
        q.CondenserOutK = condenser.TemperatureAt(q.H3);
        q.GlassQuality = (q.H3 - condenser.LiquidEnthalpy) / condenser.Latent;

        var cooling = 1 - Math.Exp(-c.LiquidUa / q.Flow / condenser.LiquidCp);
        q.H4 = q.H3 - (cooling * condenser.LiquidCp * Math.Max(0, q.CondenserOutK - c.BayK));
        var lineVolume = condenser.VolumeAt(q.H3);
        q.ValveInletPa = Behind(q.CondenserPa + c.AirPa, c.LiquidDrop * q.Flow * q.Flow * lineVolume);
        return strips;
    }

    private static void Evaporate(
        in LoopCase c,
        in SaturationRow evaporator,
        in SaturationRow inlet,
        double inletVolume,
        ref LoopPoint q
    )
    {
        q.FullDuty = c.Coil.FullFaceDuty(evaporator.TemperatureK);
        q.H1Next = c.Coil.Outlet(evaporator, q.Flow, q.H4, q.FullDuty, out q.BoilingShare);
        q.SuperheatK = Throttle.BulbSuperheat(evaporator, q.H1);
        q.EvaporatorOutQuality = (q.H1 - evaporator.LiquidEnthalpy) / evaporator.Latent;
        if (c.Expansion == ExpansionKind.OrificeTube)
        {
            q.ThrottleFlow = Throttle.Tube(
                inlet,
                q.H4,
                c.TubeDiameterM,
                c.Design.TubeLengthM,
                q.EvaporatorPa,
                c.Table.CriticalTemperatureK,
                c.Table.CriticalPressurePa
            );
            return;
        }

        var opening = Throttle.Opening(
            q.SuperheatK,
            c.Design.StaticSuperheatK,
            c.Design.OpeningSuperheatK,
            c.Design.ValveBleed,
            c.Design.ValveMaxOpening
        );
        opening += c.ValveFixedShare * (c.ValveFixedOpening - opening);
        q.ThrottleFlow = Throttle.Valve(inlet, q.H4, inletVolume, c.ValveAreaM2 * opening, q.EvaporatorPa);
    }

    private static double Behind(double pressurePa, double dropPa) => pressurePa / (1 + (dropPa / pressurePa));
}
