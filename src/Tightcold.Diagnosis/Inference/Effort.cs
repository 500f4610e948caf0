namespace Tightcold.Diagnosis.Inference;

/// <summary>How hard to look.</summary>
/// <param name="FirstPoints">Points of each explanation's prior that are tried first; three times as many of one that
/// is likely before any reading.</param>
/// <param name="Batch">Points of one refinement.</param>
/// <param name="Work">What all refinements together may cost, in solutions of the loop: one for each, and half of one
/// for each car tried.</param>
/// <param name="OddsError">Refinement ends when the odds together are expected to be wrong by no more than
/// this.</param>
public readonly record struct Effort(int FirstPoints, int Batch, int Work, double OddsError)
{
    /// <summary>A first picture.</summary>
    public static readonly Effort Quick = new(16, 28, 1_350, 0.05);

    /// <summary>The answer.</summary>
    public static readonly Effort Full = new(56, 56, 17_000, 0.007);

    /// <summary>For an answer that money hangs on: some four times the full answer's time.</summary>
    public static readonly Effort Deep = new(100, 100, 90_000, 0.005);

    /// <summary>Far more than needed, to check the others against.</summary>
    public static readonly Effort Brute = new(600, 300, 280_000, 0.0025);
}
