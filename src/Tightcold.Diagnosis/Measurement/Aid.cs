namespace Tightcold.Diagnosis.Measurement;

/// <summary>What was done to the condenser's air while reading.</summary>
public enum Aid
{
    None,

    /// <summary>A shop fan before the condenser.</summary>
    Fan,

    /// <summary>Water mist on the condenser's face.</summary>
    Mist,

    /// <summary>Cardboard before the condenser.</summary>
    Blocked,
}
