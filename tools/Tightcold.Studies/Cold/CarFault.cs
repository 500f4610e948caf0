namespace Tightcold.Studies.Cold;

/// <summary>What is wrong with a simulated car.</summary>
public enum CarFault
{
    None,

    /// <summary>Compressor circulates a fifth to two thirds: too little refrigerant.</summary>
    Undercharge,

    /// <summary>Worn compressor or stuck control: a third to six tenths.</summary>
    WeakCompressor,

    /// <summary>Condenser gets a sixth to two fifths of its air.</summary>
    BlockedCondenser,

    /// <summary>Air or too much refrigerant: condenses 10 to 25 K too hot.</summary>
    AirOrOvercharge,

    /// <summary>Heater air mixes in: 8 to 30 %.</summary>
    BlendDoor,
}
