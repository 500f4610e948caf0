using Tightcold.Quantities;

namespace Tightcold.Procedures.Substances;

/// <summary>What can hurt at a step because of what is in the circuit or drives it.</summary>
/// <param name="Key">Stable name of the hazard.</param>
/// <param name="Says">One sentence.</param>
/// <param name="Source">What it stands on, and how well that is known.</param>
/// <param name="Stops">The step is not begun as things stand.</param>
public sealed record Caution(string Key, Phrase Says, string Source, bool Stops = false);
