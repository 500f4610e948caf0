namespace Tightcold.Diagnosis.Tightness;

/// <summary>What is wrong with a test.</summary>
[Flags]
public enum TestQuality
{
    None = 0,

    /// <summary>Too short to see more than gross leaks.</summary>
    TooShort = 1,

    /// <summary>On a dial: shows gross leaks only.</summary>
    DialOnly = 2,

    /// <summary>No temperature was taken.</summary>
    NoTemperature = 4,

    /// <summary>The test pressure was too low.</summary>
    LowPressure = 8,

    /// <summary>Read while the filling was still warm: the first quarter of an hour.</summary>
    WarmFilling = 16,

    /// <summary>The parts cooled so far that shrinking gas could hide a leak.</summary>
    Cooling = 32,
}
