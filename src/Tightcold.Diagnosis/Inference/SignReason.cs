using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Inference;

/// <summary>What one thing looked at, felt or tried says about one explanation.</summary>
/// <param name="Sign">What was found.</param>
/// <param name="Weight">ln of how much likelier it is under this explanation than under the others, as they stood
/// before any reading; positive speaks for it.</param>
public sealed record SignReason(Sign Sign, double Weight);
