namespace Tightcold.Diagnosis.Leaks;

/// <summary>Kinds of places that can leak, as far as their habits differ.</summary>
public enum LeakComponent
{
    ShaftSeal,
    CompressorBody,
    Hose,
    Joint,
    Condenser,
    Evaporator,
    Drier,
    Pipe,
    ServiceValve,
    Sensor,
    ValveBlock,
    Relief,

    /// <summary>A place that nobody named.</summary>
    Unknown,
}
