namespace Tightcold.SecondWorld.Cars;

/// <summary>The steady state with the compressor pumping. Pressures absolute.</summary>
public sealed record Working
{
    public required bool Solved { get; init; }
    public required double SuctionPa { get; init; }
    public required double EvaporatingPa { get; init; }
    public required double CondensingPa { get; init; }
    public required double DischargePa { get; init; }
    public required double LiquidPa { get; init; }
    public required double FlowKgPerS { get; init; }
    public required double SuctionC { get; init; }
    public required double EvaporatorOutC { get; init; }
    public required double EvaporatorInC { get; init; }
    public required double DischargeC { get; init; }
    public required double CondenserOutC { get; init; }
    public required double AfterRestrictionC { get; init; }
    public required double ValveInC { get; init; }
    public required double ValveInQuality { get; init; }
    public required double ReceiverOutQuality { get; init; }
    public required double EvaporatorOutQuality { get; init; }
    public required double AirOffC { get; init; }
    public required double VentC { get; init; }
    public required double InletC { get; init; }
    public required double ColdestSurfaceC { get; init; }
    public required double CoolingW { get; init; }
    public required double HeatOutW { get; init; }
    public required double WorkW { get; init; }
    public required double LineGainW { get; init; }
    public required double ShellLossW { get; init; }
    public required double MassKg { get; init; }
    public required double StoreLevel { get; init; }
    public required double Stroke { get; init; }
    public required double FanM3PerS { get; init; }
    public required double AirPartPa { get; init; }
    public required bool AtHighLimit { get; init; }
}
