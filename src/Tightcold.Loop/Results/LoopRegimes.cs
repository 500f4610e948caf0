namespace Tightcold.Loop.Results;

/// <summary>All that holds of an answer at once; <see cref="LoopState"/> names the foremost.</summary>
[Flags]
public enum LoopRegimes
{
    None = 0,

    /// <summary>Vapour reaches the throttle: bubbles in the sight glass.</summary>
    LineFlashing = 1,

    /// <summary>Superheat above 15 K: the evaporator boils dry early.</summary>
    EvaporatorStarved = 2,

    /// <summary>The condenser condenses nothing.</summary>
    NoCondensation = 4,

    /// <summary>The compressor draws in more than a tenth of its flow as liquid.</summary>
    LiquidCarryOver = 8,

    /// <summary>The low-side switch cycles the clutch.</summary>
    LowSwitchCycling = 16,

    /// <summary>The fin thermostat cycles the clutch.</summary>
    FinCycling = 32,

    /// <summary>The high-pressure switch acts.</summary>
    HighSwitchActing = 64,

    /// <summary>Ice forms on the core.</summary>
    Icing = 128,

    /// <summary>The low side runs below the surrounding air's pressure.</summary>
    Vacuum = 256,

    /// <summary>Stroke or speed is at its least.</summary>
    LeastCapacity = 512,

    /// <summary>Ice in the throttle comes and goes.</summary>
    ThrottleIcing = 1024,

    /// <summary>More charge than the running circuit can place.</summary>
    LiquidFull = 2048,

    /// <summary>The compressor does not run.</summary>
    Off = 4096,

    /// <summary>More air than refrigerant.</summary>
    MostlyAir = 8192,
}
