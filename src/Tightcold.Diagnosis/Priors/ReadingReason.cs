namespace Tightcold.Diagnosis.Priors;

/// <summary>Why the readings were taken: what is likely before any of them.</summary>
public enum ReadingReason
{
    /// <summary>Nobody said: a sound car is as likely as all faults together.</summary>
    NotSaid,

    /// <summary>It cools too little, or not at all.</summary>
    BroughtInWarm,

    /// <summary>Cold on the road, warm at idle.</summary>
    WarmAtIdle,

    /// <summary>Cold at first, warm after ten minutes or so.</summary>
    WarmAfterTenMinutes,

    /// <summary>Nobody complained.</summary>
    CheckUp,

    /// <summary>Just mended, evacuated and filled by the scale.</summary>
    JustMendedAndWeighed,

    /// <summary>Mended or filled, and warm again after days.</summary>
    CameBackAfterAWeek,
}
