namespace Tightcold.Loop.Results;

/// <summary>
/// What instruments would show, as modelled; time means where the clutch cycles. SI, pressures absolute. Every number
/// is finite.
/// </summary>
public readonly record struct LoopReadings
{
    /// <summary>At the low service port, Pa: mean, and the ends of its swing.</summary>
    public double LowSidePa { get; init; }

    public double LowSideMinPa { get; init; }

    public double LowSideMaxPa { get; init; }

    /// <summary>At the high service port (discharge line), Pa: mean, and the ends of its swing.</summary>
    public double HighSidePa { get; init; }

    public double HighSideMinPa { get; init; }

    public double HighSideMaxPa { get; init; }

    /// <summary>What both needles show on average while the compressor runs, Pa: what people write down of a needle
    /// that swings.</summary>
    public double LowSideRunningPa { get; init; }

    public double HighSideRunningPa { get; init; }

    /// <summary>Pipe at the evaporator's outlet, at the compressor's inlet and outlet, at the condenser's outlet and
    /// before the throttle, K.</summary>
    public double EvaporatorOutK { get; init; }

    public double SuctionLineK { get; init; }

    public double DischargeLineK { get; init; }

    public double LiquidLineK { get; init; }

    public double ThrottleInletK { get; init; }

    /// <summary>Evaporating and condensing temperature of the refrigerant, K.</summary>
    public double EvaporatingK { get; init; }

    public double CondensingK { get; init; }

    /// <summary>Superheat at the evaporator's outlet, K; 0 where it is wet.</summary>
    public double SuperheatK { get; init; }

    /// <summary>True subcooling at the condenser's outlet, K; 0 where it is wet.</summary>
    public double SubcoolingK { get; init; }

    /// <summary>Subcooling as a gauge and a clamp would have it, K: differs from the true one when air is in the
    /// circuit; negative where the line flashes under line losses.</summary>
    public double ApparentSubcoolingK { get; init; }

    /// <summary>Air from the centre vent, K.</summary>
    public double VentK { get; init; }

    /// <summary>Mean fin of the evaporator, K.</summary>
    public double FinK { get; init; }

    /// <summary>Heat taken from the cabin air, W.</summary>
    public double CoolingW { get; init; }

    /// <summary>Heat given to the outside air at the condenser, W.</summary>
    public double HeatRejectedW { get; init; }

    /// <summary>Power at the shaft, or from the battery of an electric compressor, W.</summary>
    public double PowerW { get; init; }

    public double FlowKgPerS { get; init; }

    /// <summary>Water off the evaporator, kg/s.</summary>
    public double CondensateKgPerS { get; init; }

    /// <summary>Share of time the compressor runs, 0 to 1.</summary>
    public double Duty { get; init; }

    public double CyclesPerMinute { get; init; }

    /// <summary>Mass share of vapour behind condenser and receiver, where a sight glass sits; 0 for clear
    /// liquid.</summary>
    public double SightGlassQuality { get; init; }

    /// <summary>Receiver or accumulator, 0 empty to 1 full of liquid.</summary>
    public double StoreLevel { get; init; }

    /// <summary>Stroke of a variable compressor, or speed of an electric one over its most; 1 for a fixed
    /// one.</summary>
    public double Stroke { get; init; }

    public double CompressorRpm { get; init; }

    /// <summary>Mass share of vapour at the compressor's inlet; above 1 superheated.</summary>
    public double SuctionQuality { get; init; }

    /// <summary>Every reading between two, at a weight of the second from 0 to 1.</summary>
    internal static LoopReadings Mix(in LoopReadings a, in LoopReadings b, double w)
    {
        if (w <= 0)
            return a;
        if (w >= 1)
            return b;
        double M(double x, double y) => x + (w * (y - x));
        return new LoopReadings
        {
            LowSidePa = M(a.LowSidePa, b.LowSidePa),
            LowSideMinPa = M(a.LowSideMinPa, b.LowSideMinPa),
            LowSideMaxPa = M(a.LowSideMaxPa, b.LowSideMaxPa),
            HighSidePa = M(a.HighSidePa, b.HighSidePa),
            HighSideMinPa = M(a.HighSideMinPa, b.HighSideMinPa),
            HighSideMaxPa = M(a.HighSideMaxPa, b.HighSideMaxPa),
            LowSideRunningPa = M(a.LowSideRunningPa, b.LowSideRunningPa),
            HighSideRunningPa = M(a.HighSideRunningPa, b.HighSideRunningPa),
            EvaporatorOutK = M(a.EvaporatorOutK, b.EvaporatorOutK),
            SuctionLineK = M(a.SuctionLineK, b.SuctionLineK),
            DischargeLineK = M(a.DischargeLineK, b.DischargeLineK),
            LiquidLineK = M(a.LiquidLineK, b.LiquidLineK),
            ThrottleInletK = M(a.ThrottleInletK, b.ThrottleInletK),
            EvaporatingK = M(a.EvaporatingK, b.EvaporatingK),
            CondensingK = M(a.CondensingK, b.CondensingK),
            SuperheatK = M(a.SuperheatK, b.SuperheatK),
            SubcoolingK = M(a.SubcoolingK, b.SubcoolingK),
            ApparentSubcoolingK = M(a.ApparentSubcoolingK, b.ApparentSubcoolingK),
            VentK = M(a.VentK, b.VentK),
            FinK = M(a.FinK, b.FinK),
            CoolingW = M(a.CoolingW, b.CoolingW),
            HeatRejectedW = M(a.HeatRejectedW, b.HeatRejectedW),
            PowerW = M(a.PowerW, b.PowerW),
            FlowKgPerS = M(a.FlowKgPerS, b.FlowKgPerS),
            CondensateKgPerS = M(a.CondensateKgPerS, b.CondensateKgPerS),
            Duty = M(a.Duty, b.Duty),
            CyclesPerMinute = M(a.CyclesPerMinute, b.CyclesPerMinute),
            SightGlassQuality = M(a.SightGlassQuality, b.SightGlassQuality),
            StoreLevel = M(a.StoreLevel, b.StoreLevel),
            Stroke = M(a.Stroke, b.Stroke),
            CompressorRpm = M(a.CompressorRpm, b.CompressorRpm),
            SuctionQuality = M(a.SuctionQuality, b.SuctionQuality),
        };
    }

    internal bool IsFinite =>
        double.IsFinite(
            LowSidePa
                + HighSidePa
                + LowSideRunningPa
                + HighSideRunningPa
                + LowSideMinPa
                + LowSideMaxPa
                + HighSideMinPa
                + HighSideMaxPa
                + EvaporatorOutK
                + SuctionLineK
                + DischargeLineK
                + LiquidLineK
                + ThrottleInletK
                + EvaporatingK
                + CondensingK
                + SuperheatK
                + SubcoolingK
                + ApparentSubcoolingK
                + VentK
                + FinK
                + CoolingW
                + HeatRejectedW
                + PowerW
                + FlowKgPerS
                + CondensateKgPerS
                + Duty
                + CyclesPerMinute
                + SightGlassQuality
                + StoreLevel
                + Stroke
                + CompressorRpm
                + SuctionQuality
        );
}
