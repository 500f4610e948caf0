using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Water that is left inside.</summary>
/// <param name="Dry">Odds that less than the limit is left.</param>
/// <param name="WaterKg">Mass left, kg.</param>
/// <param name="Doubt">What stands most in the way.</param>
/// <param name="FloorKg">Water that the last hold could not have seen; null without one.</param>
public sealed record DrynessBelief(double Dry, LeakQuantiles WaterKg, DrynessDoubt Doubt, double? FloorKg);
