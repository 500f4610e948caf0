namespace Tightcold.Loop.Calibration;

/// <summary>What was read on a sound car: gauges in Pa absolute (the middle of a swing), temperatures in K.</summary>
public enum HealthyChannel
{
    LowSide,
    HighSide,
    Vent,
    SuctionLine,
    LiquidLine,
    DischargeLine,
}
