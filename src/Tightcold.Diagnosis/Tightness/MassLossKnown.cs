namespace Tightcold.Diagnosis.Tightness;

/// <summary>Which side of a loss is known.</summary>
public enum MassLossKnown
{
    Both,

    /// <summary>At least so much went: it was found empty.</summary>
    AtLeast,

    /// <summary>At most so much went: liquid was still present.</summary>
    AtMost,
}
