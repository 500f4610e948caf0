namespace Tightcold.Loop.Results;

/// <summary>What the circuit is doing, the most telling thing first. Every answer of the model names one.</summary>
public enum LoopState
{
    /// <summary>Runs steadily with liquid where liquid belongs.</summary>
    Steady,

    /// <summary>Runs steadily, short of liquid: bubbles in the liquid line, or an evaporator that boils dry
    /// early.</summary>
    Starved,

    /// <summary>Runs steadily, liquid goes back to the compressor.</summary>
    Flooded,

    /// <summary>Runs steadily with a core colder than ice and water on it: airflow will fail within the hour.</summary>
    Icing,

    /// <summary>The clutch is cycled by the low-side switch or the fin thermostat.</summary>
    Cycling,

    /// <summary>The high-pressure switch cuts the clutch in and out, or keeps it out.</summary>
    HighPressureCutOut,

    /// <summary>More refrigerant than the running circuit has room for below the critical pressure.</summary>
    LiquidFull,

    /// <summary>The compressor does not turn or is kept off: both sides stand at the pressure of the parked
    /// car.</summary>
    Off,

    /// <summary>The circuit holds more air than refrigerant; what a running compressor would do with it is not
    /// modelled, and the readings are those of the parked car.</summary>
    MostlyAir,

    /// <summary>No steady state was found; there are no readings, and the report says why.</summary>
    NotClosed,
}
