using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Inference;

/// <summary>What one reading says about one explanation.</summary>
/// <param name="Point">Index of the operating point.</param>
/// <param name="Channel">What was read; null for something seen.</param>
/// <param name="Seen">What was seen: glass, frost, clutch or cycles; null for a number.</param>
/// <param name="Weight">ln of how much likelier the reading is under this explanation than under the others, as they
/// stood before any reading; positive speaks for it.</param>
/// <param name="Observed">SI; not used for something seen.</param>
/// <param name="Expected">Where this explanation puts the reading.</param>
/// <param name="Healthy">Where a sound car puts it.</param>
public sealed record Reason(
    int Point,
    Channel? Channel,
    SeenKind? Seen,
    double Weight,
    double Observed,
    Interval Expected,
    Interval Healthy
)
{
    /// <summary>The last filling speaks, and neither a number nor something seen: the charge over the label's that it
    /// lets expect is <see cref="Expected"/>.</summary>
    public bool IsHistory => Channel is null && Seen is null;
}
