namespace Tightcold.Diagnosis.Inference;

/// <summary>How hard to look.</summary>
/// <param name="FirstPoints">Points of each explanation's prior that are tried first.</param>
/// <param name="Batch">Points of one refinement.</param>
/// <param name="Budget">Points of all refinements together.</param>
/// <param name="OddsError">Refinement ends when no odds are expected to be wrong by more than this.</param>
public readonly record struct Effort(int FirstPoints, int Batch, int Budget, double OddsError)
{
    /// <summary>A first picture.</summary>
    public static readonly Effort Quick = new(40, 40, 300, 0.06);

    /// <summary>The answer.</summary>
    public static readonly Effort Full = new(56, 56, 2400, 0.02);

    /// <summary>Far more than needed, to check the others against.</summary>
    public static readonly Effort Brute = new(4000, 1000, 12000, 0);
}
