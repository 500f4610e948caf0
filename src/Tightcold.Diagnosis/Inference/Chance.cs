using Tightcold.Numerics.Sampling;

namespace Tightcold.Diagnosis.Inference;

/// <summary>The stream from which the diagnosis draws its cars.</summary>
public sealed class Chance(ulong seed) : SeededChance(seed, shifts: true);
