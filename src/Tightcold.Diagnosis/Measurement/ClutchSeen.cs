namespace Tightcold.Diagnosis.Measurement;

/// <summary>What the clutch was seen to do.</summary>
public enum ClutchSeen
{
    NotLooked,
    On,
    Off,
    Cycling,
}
