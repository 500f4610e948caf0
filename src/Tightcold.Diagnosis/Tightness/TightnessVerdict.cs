namespace Tightcold.Diagnosis.Tightness;

/// <summary>The word that stands beside the odds.</summary>
public enum TightnessVerdict
{
    /// <summary>No test since the last repair or opening that could have seen anything.</summary>
    Untested,

    /// <summary>A test of the whole circuit failed, and no hold of the hoses alone did; or a leak that was found and
    /// not mended is likelier than not too large.</summary>
    Leaking,

    /// <summary>Below 0.70, or a failed test stands unanswered.</summary>
    NotProven,

    /// <summary>From 0.70 to below 0.90.</summary>
    Likely,

    /// <summary>0.90 and above.</summary>
    Proven,
}
