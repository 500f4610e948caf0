namespace Tightcold.Diagnosis.Tightness;

/// <summary>What stands most in the way of "proven".</summary>
public enum TightnessDoubt
{
    None,

    /// <summary>A test failed and nothing was mended since.</summary>
    FailedTest,

    /// <summary>A leak was found and is not mended.</summary>
    FoundNotMended,

    /// <summary>Nothing was tested since the last repair or opening.</summary>
    NothingTested,

    /// <summary>The named spot may leak.</summary>
    Spot,

    /// <summary>A place that nobody listed may leak.</summary>
    Elsewhere,

    /// <summary>The repair at the named spot may not have held.</summary>
    RepairMayNotHold,

    /// <summary>What was undone and closed again may leak.</summary>
    Reassembly,
}
