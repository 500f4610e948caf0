using Tightcold.Loop.Results;

namespace Tightcold.Loop.Solving;

/// <summary>All that one walk round the circuit found. SI, absolute pressures, enthalpies of the refrigerant's own
/// zero.</summary>
internal struct LoopPoint
{
    public double LogSuction,
        LogDischarge,
        H1;

    public double SuctionPa,
        EvaporatorPa,
        CondenserPa,
        DischargePa,
        ValveInletPa;
    public double EvaporatingK,
        CondensingK;
    public double EvaporatorOutK,
        SuctionK,
        DischargeK,
        CondenserOutK,
        ValveInletK;
    public double HSuction,
        HDischarge,
        H3,
        H4,
        H1Next;
    public double HSuctionGasWork;
    public double Flow,
        ThrottleFlow;
    public double Stroke,
        Rpm,
        Isentropic,
        Volumetric;
    public double SuperheatK,
        EvaporatorOutQuality,
        SuctionQuality;
    public double SubcoolingK,
        GlassQuality,
        LineQuality;
    public double BoilingShare,
        FullDuty;
    public double ChargeKg,
        LiquidShare;

    /// <summary>Receiver or accumulator: how far between empty at 0 and full at 1 the liquid that reaches it puts it,
    /// also beyond both; the share of it that is filled, the smooth step of that place; what it holds more when full
    /// than when empty, kg.</summary>
    public double StorePlace,
        StoreLevel,
        StoreRangeKg;

    /// <summary>Residuals: throttle against compressor, charge, energy round the loop.</summary>
    public double FlowResidual,
        ChargeResidual,
        EnergyResidual;

    public readonly LoopStart Start => new(LogSuction, LogDischarge, H1);

    public readonly double Worst =>
        Math.Max(Math.Abs(FlowResidual), Math.Max(Math.Abs(ChargeResidual), Math.Abs(EnergyResidual)));

    public readonly bool IsFinite =>
        double.IsFinite(FlowResidual) && double.IsFinite(ChargeResidual) && double.IsFinite(EnergyResidual);
}
