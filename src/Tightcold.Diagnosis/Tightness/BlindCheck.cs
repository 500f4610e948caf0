using Tightcold.Diagnosis.Leaks;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>A check whose "nothing" counts for nothing.</summary>
/// <param name="Spot">Where.</param>
/// <param name="Why">Why it could not have seen a leak worth finding; None when the person said so.</param>
/// <param name="FromSearch">It was part of a search of the whole circuit.</param>
public readonly record struct BlindCheck([Said] string Spot, LeakTest Check, LeakBlindness Why, bool FromSearch);
