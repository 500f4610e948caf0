using System.Collections.Immutable;

namespace Tightcold.Loop.Calibration;

/// <summary>How a car was run while it was known to be sound, and what was read then.</summary>
/// <param name="ChargeKg">Refrigerant in it, kg; null for the label's.</param>
public sealed record HealthyPoint(LoopConditions Conditions, double? ChargeKg, ImmutableArray<HealthyReading> Readings);
