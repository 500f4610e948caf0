namespace Tightcold.Diagnosis.Leaks;

/// <summary>Why a test could not have seen a leak worth finding.</summary>
public enum LeakBlindness
{
    None,
    Pressure,
    NeverDyed,
    Wind,
    TooShort,
    OutOfReach,

    /// <summary>Soap and eyes see large leaks only.</summary>
    TooCoarse,
}
