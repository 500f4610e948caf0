namespace Tightcold.Diagnosis.Measurement;

/// <summary>
/// One thing that was looked at, felt, heard or tried, and how it came out. Signs of one group exclude each other; what
/// nobody looked at is not said.
/// </summary>
public enum Sign
{
    // The condenser's fan while the compressor runs.
    FanRuns,
    FanSlow,
    FanStopped,

    // The course of the cooling.
    CoolsSteadily,
    ComesAndGoes,
    WarmAfterTenMinutes,
    ColdOnTheRoadOnly,

    // After ten minutes' rest of a car that had turned warm.
    ColdAgainAfterRest,
    WarmStillAfterRest,

    // Both gauges right after switching off.
    SidesEqualAtOnce,
    HighFallsFastThenSlowly,
    SidesDrawTogetherSlowly,

    // The hand along the pipes.
    LowPipeCold,
    LowPipeNotCold,
    NoStepAlongLiquidLine,
    ColdBehindDrier,
    ColdBeforeThrottle,

    // Heater hose pinched off or heater valve shut.
    HosePinchedColder,
    HosePinchedSame,

    // Air out of the vents.
    AirStrong,
    AirWeak,
    VentsAlike,
    VentsDiffer,
    NoHotAirAtInlet,
    HotAirAtInlet,

    // The needles.
    NeedlesSteady,
    LowNeedleSwings,
    NeedlesShake,

    // What the engine computer asks of a variable compressor's valve, and what its sensor reads.
    ValveAskedFor,
    ValveNotAskedFor,
    SensorAgreesWithGauge,
    SensorOffTheGauge,

    // At the clutch's plug.
    VoltageAtClutch,
    NoVoltageAtClutch,

    // The glass at lower revs or after switching off.
    FoamAtLowerRevs,
    NoFoamAtLowerRevs,

    // Round about.
    EngineTemperatureRight,
    EngineTooHot,
    OilClean,
    OilBlack,
    MetalInOil,
    BeltRight,
    BeltSlips,
    HubStands,
    CondenserClean,
    CondenserDirty,
}
