using Tightcold.Quantities;

namespace Tightcold.Procedures.Substances;

/// <summary>What can hurt at a step.</summary>
/// <param name="Key">Stable name of the hazard; what is said twice under one key is said once.</param>
/// <param name="Danger">How bad.</param>
/// <param name="Says">One sentence.</param>
/// <param name="Source">What it stands on, and how well that is known; empty for what the journal itself shows.</param>
public sealed record Caution(string Key, Danger Danger, Phrase Says, [Said] string Source)
{
    /// <summary>The step is not begun as things stand.</summary>
    public bool Stops => Danger == Danger.Now;
}
