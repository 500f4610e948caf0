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
}
