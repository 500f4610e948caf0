using Tightcold.Loop.Results;

namespace Tightcold.Loop.Calibration;

/// <summary>One reading of a sound car.</summary>
/// <param name="Value">Pa absolute or K.</param>
/// <param name="Sigma">One standard deviation of the instrument.</param>
public readonly record struct HealthyReading(HealthyChannel Channel, double Value, double Sigma)
{
    internal static double Of(in LoopReadings readings, HealthyChannel channel) =>
        channel switch
        {
            HealthyChannel.LowSide => readings.LowSidePa,
            HealthyChannel.HighSide => readings.HighSidePa,
            HealthyChannel.Vent => readings.VentK,
            HealthyChannel.SuctionLine => readings.SuctionLineK,
            HealthyChannel.LiquidLine => readings.LiquidLineK,
            _ => readings.DischargeLineK,
        };
}
