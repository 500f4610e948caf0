namespace Tightcold.Procedures.Evacuation;

/// <summary>Where a pump-down stands at a time.</summary>
/// <param name="Seconds">Since the start.</param>
/// <param name="PressurePa">At the far port.</param>
/// <param name="WaterKg">Liquid water or ice left.</param>
/// <param name="GasToComePa">What the oil would still give off into the shut-off volume: the rise of a hold begun
/// now.</param>
public readonly record struct EvacuationPoint(double Seconds, double PressurePa, double WaterKg, double GasToComePa)
{
    /// <summary>A hold begun now would settle about here.</summary>
    public double WouldSettlePa => PressurePa + GasToComePa;
}
