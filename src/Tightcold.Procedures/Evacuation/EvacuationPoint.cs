namespace Tightcold.Procedures.Evacuation;

/// <summary>Where a pump-down stands at a time.</summary>
/// <param name="Seconds">Since the start.</param>
/// <param name="PressurePa">At the far port.</param>
/// <param name="WaterKg">Liquid water or ice left.</param>
public readonly record struct EvacuationPoint(double Seconds, double PressurePa, double WaterKg);
