namespace Tightcold.Diagnosis.Measurement;

/// <summary>What an instrument was held to. Each has a fixed error of its own that all its readings share.</summary>
public enum Channel
{
    /// <summary>Low-side gauge, Pa absolute: where it stands, or the lower end of its swing.</summary>
    LowSide,

    /// <summary>Upper end of the low side's swing, Pa absolute.</summary>
    LowSwingTop,

    /// <summary>High-side gauge, Pa absolute.</summary>
    HighSide,

    /// <summary>Centre vent, K.</summary>
    Vent,

    /// <summary>Pipe temperatures, K.</summary>
    SuctionLine,
    LiquidLine,
    DischargeLine,

    /// <summary>Upper end of the high side's swing, Pa absolute; the high side is then its lower end.</summary>
    HighSwingTop,

    /// <summary>Fall of temperature along the liquid line, condenser's outlet less the throttle's inlet, K: two clamps
    /// of one thermometer, or one moved, so that its own error falls out.</summary>
    LineStep,
}
