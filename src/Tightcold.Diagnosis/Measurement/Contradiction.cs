namespace Tightcold.Diagnosis.Measurement;

/// <summary>A reading that cannot be, or two that cannot both be.</summary>
/// <param name="Point">Index of the operating point; -1 for a standing reading.</param>
/// <param name="Kind">What is wrong with it.</param>
/// <param name="Channel">The reading set aside; null where it is no channel of its own.</param>
/// <param name="Value">The reading, SI.</param>
/// <param name="Limit">What it cannot pass, SI.</param>
public sealed record Contradiction(int Point, ContradictionKind Kind, Channel? Channel, double Value, double Limit);
