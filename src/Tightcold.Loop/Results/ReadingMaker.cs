using Tightcold.Loop.Designs;
using Tightcold.Loop.Evaporator;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Solving;
using Tightcold.Numerics.Smoothing;

namespace Tightcold.Loop.Results;

/// <summary>Readings of a steady running point.</summary>
internal static class ReadingMaker
{
    // The low port sits about a third of the suction drop above the compressor (practice).
    private const double LowPortShare = 0.5;

    // Most air stays in condenser and receiver; what is carried on with the liquid adds its own pressure here
    // (assumed).
    private const double CirculatingAirShare = 0.15;

    // The core's share that boils at which the probe is dry for sure; as much short of all of it, wet for sure.
    private const double ProbeDryShare = 0.3;

    // Drag of belt, clutch and bearings, W and W per turn a minute (assumed).
    private const double DragW = 30;
    private const double DragWPerRpm = 0.03;

    public static LoopReadings Of(in LoopCase c, LoopConditions conditions, LoopFaults faults, in LoopPoint p)
    {
        var cooling = p.Flow * (p.H1 - p.H4);
        c.Coil.AirOut(p.EvaporatingK, cooling, out var coilOut, out _, out var condensate);
        var low =
            p.SuctionPa + (LowPortShare * (p.EvaporatorPa - p.SuctionPa)) + (CirculatingAirShare * faults.AirExcessPa);
        var shaft = (p.Flow * p.HSuctionGasWork) + DragW + (DragWPerRpm * p.Rpm);
        return new LoopReadings
        {
            LowSidePa = low,
            LowSideMinPa = low,
            LowSideMaxPa = low,
            HighSidePa = p.DischargePa,
            HighSideMinPa = p.DischargePa,
            HighSideMaxPa = p.DischargePa,
            LowSideRunningPa = low,
            HighSideRunningPa = p.DischargePa,
            EvaporatorOutK = p.EvaporatorOutK,
            SuctionLineK = p.SuctionK,
            DischargeLineK = p.DischargeK,
            LiquidLineK = p.CondenserOutK,
            ThrottleInletK = p.ValveInletK,
            EvaporatingK = p.EvaporatingK,
            CondensingK = p.CondensingK,
            SuperheatK = Math.Max(0, p.SuperheatK),
            SubcoolingK = p.SubcoolingK,
            ApparentSubcoolingK =
                c.Table.SaturationTemperatureK(Math.Min(p.DischargePa, c.Table.MaxPressurePa)) - p.CondenserOutK,
            VentK = VentAir.AtK(c, conditions, faults, coilOut),
            FinK = FinK(c, p, coilOut),
            CoolingW = cooling,
            HeatRejectedW = p.Flow * (p.HDischarge - p.H3),
            PowerW =
                c.Kind == CompressorKind.Electric ? p.Flow * p.HSuctionGasWork / c.Design.ElectricEfficiency : shaft,
            FlowKgPerS = p.Flow,
            CondensateKgPerS = condensate,
            Duty = 1,
            CyclesPerMinute = 0,
            SightGlassQuality = Math.Clamp(p.GlassQuality, 0, 1),
            StoreLevel = p.StoreLevel,
            Stroke = c.Kind == CompressorKind.Electric ? p.Rpm / c.Design.ElectricMaxRpm : p.Stroke,
            CompressorRpm = p.Rpm,
            SuctionQuality = p.SuctionQuality,
        };
    }

    /// <summary>Boiling fins stand half the film's difference above the refrigerant, dry ones at the air's
    /// temperature.</summary>
    public static double FinK(in LoopCase c, in LoopPoint p, double coilOutK)
    {
        var boiling = BoilingFinK(c, p);
        return coilOutK + (p.BoilingShare * (boiling - coilOutK));
    }

    public static double BoilingFinK(in LoopCase c, in LoopPoint p) =>
        p.EvaporatingK + (0.5 * p.FullDuty * c.Coil.RefrigerantResistance);

    /// <summary>
    /// Where the thermostat's probe sits: in the middle of the core, so over boiling refrigerant while most of the core
    /// boils, and in warm air when a starved core boils at its inlet only.
    /// </summary>
    public static double ProbeK(in LoopCase c, in LoopPoint p, double coilOutK)
    {
        var boiling = BoilingFinK(c, p);
        return coilOutK
            + (Smooth.Step((p.BoilingShare - ProbeDryShare) / (1 - (2 * ProbeDryShare))) * (boiling - coilOutK));
    }
}
