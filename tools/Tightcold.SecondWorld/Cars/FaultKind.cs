namespace Tightcold.SecondWorld.Cars;

/// <summary>What can be wrong with a car of the second world.</summary>
public enum FaultKind
{
    TooLittle,
    TooMuch,
    AirInside,
    WrongGas,
    FanDead,
    FanWeak,
    CondenserDirty,
    CondenserBlockedInside,
    DrierBlocked,
    LiquidLineRestricted,
    ValveStuckClosed,
    ValveStuckOpen,
    BulbLost,
    OrificeBlocked,
    OrificeMissing,
    CompressorWorn,
    CompressorDead,
    ClutchOff,
    StrokeStuckLow,
    StrokeStuckHigh,
    EvaporatorIced,
    EvaporatorAirBlocked,
    BlowerWeak,
    CabinFilterDirty,
    HeaterDoorLeaks,
    WaterFreezes,
}
