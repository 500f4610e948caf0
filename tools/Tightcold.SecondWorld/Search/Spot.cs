namespace Tightcold.SecondWorld.Search;

/// <summary>A place where cars leak, as the trade names it.</summary>
public enum Spot
{
    ShaftSeal,
    CompressorBody,
    CompressorJoints,
    Condenser,
    CondenserJoints,
    Drier,
    LiquidLine,
    ValveJoints,
    Evaporator,
    SuctionHose,
    DischargeHose,
    LowPort,
    HighPort,
    SensorOrSwitch,
}

/// <summary>How a place can be looked at.</summary>
public enum Look
{
    Eye,
    Detector,
    Soap,
    Dye,

    /// <summary>Detector under a cover, after gas has gathered for ten minutes.</summary>
    Cover,

    /// <summary>Detector at the evaporator's drain.</summary>
    Drain,
}
