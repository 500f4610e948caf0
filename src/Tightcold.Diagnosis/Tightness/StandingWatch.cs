using System.Collections.Immutable;
using Tightcold.Properties;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Standing pressures apart in time with nothing filled, taken out or opened between them.</summary>
/// <param name="Points">In the order of time; those with liquid inside say that there is at least so much, and no
/// more.</param>
public sealed record StandingWatch(Fluid Fluid, ImmutableArray<StandingPoint> Points);
