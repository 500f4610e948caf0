namespace Tightcold.Diagnosis.Measurement;

/// <summary>What the sight glass showed.</summary>
public enum GlassSeen
{
    /// <summary>Not looked, or none fitted.</summary>
    NotLooked,
    Clear,
    Bubbles,
    Milky,
}
