namespace Tightcold.Diagnosis.Tightness;

/// <summary>What stands most in the way of "dry".</summary>
public enum DrynessDoubt
{
    None,

    /// <summary>No hold on an absolute gauge.</summary>
    NotHeld,

    /// <summary>The hold settles where water boils.</summary>
    Settles,

    /// <summary>Parts so cold that water hides as ice.</summary>
    ColdParts,

    /// <summary>The temperature of the parts is not known.</summary>
    NoTemperature,

    /// <summary>It stood open for long and was pumped for too short a time.</summary>
    PumpedTooShort,
}
