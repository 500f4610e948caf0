namespace Tightcold.App.Units;

/// <summary>Which units a reader wants to see. What a person types may be in either.</summary>
public enum UnitSystem
{
    /// <summary>bar, mbar, °C, g, mL, m.</summary>
    Metric,

    /// <summary>psig, inHg, micron, °F, oz, ft.</summary>
    Us,
}
