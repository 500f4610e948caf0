namespace Tightcold.Jobs.Entries;

/// <summary>The steps of a job in the order the trade takes them.</summary>
public enum Step
{
    /// <summary>What the driver says, and the weather it is judged against.</summary>
    ComplaintAndWeather,

    /// <summary>Pressures with the engine off: what is left.</summary>
    StandingPressure,

    /// <summary>Pressures with the engine running.</summary>
    RunningPressures,

    /// <summary>Faults with odds, weighed from all readings.</summary>
    WhatIsWrong,

    /// <summary>Every joint, by which test, with which outcome.</summary>
    LeakSearch,

    /// <summary>Taking out lawfully what is left.</summary>
    Recover,

    /// <summary>Parts, seals, drier, oil.</summary>
    Mend,

    /// <summary>Pulling the system down until water must boil.</summary>
    PumpDown,

    /// <summary>The pump shut off: does it hold?</summary>
    Hold,

    /// <summary>The right charge, by weight.</summary>
    WeighIn,

    /// <summary>The vent against today's weather.</summary>
    ProveCold,

    /// <summary>Every gram accounted for.</summary>
    Ledger,
}
