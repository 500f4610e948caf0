namespace Tightcold.Diagnosis.Tightness;

/// <summary>How much work the belief may take.</summary>
public enum TightnessEffort
{
    /// <summary>Odds to a few points, some ten milliseconds.</summary>
    Glance,

    /// <summary>Odds to about one point.</summary>
    Full,
}
