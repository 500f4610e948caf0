using Tightcold.Quantities;

namespace Tightcold.Picture;

/// <summary>Something a finding takes for true without a reading, and how much it matters.</summary>
public sealed record Assumption(Phrase What, Phrase Matters);
