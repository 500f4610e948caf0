namespace Tightcold.Loop.Designs;

/// <summary>How the compressor's capacity is governed.</summary>
public enum CompressorKind
{
    /// <summary>Fixed displacement with a clutch; a fin thermostat stops it before the core ices.</summary>
    FixedWithFinThermostat,

    /// <summary>Fixed displacement with a clutch; a pressure switch on the low side cycles it.</summary>
    FixedCycling,

    /// <summary>Variable displacement that holds its suction pressure.</summary>
    Variable,

    /// <summary>Driven by its own motor, whose speed holds the evaporator temperature.</summary>
    Electric,
}
