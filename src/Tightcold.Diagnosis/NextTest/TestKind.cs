namespace Tightcold.Diagnosis.NextTest;

/// <summary>What can be done next to learn more, with what a person working alone has.</summary>
public enum TestKind
{
    ReadVent,
    ClampSuctionLine,
    ClampLiquidLine,
    ClampDischargeLine,
    LookAtGlass,
    LookForFrost,
    WatchClutch,

    /// <summary>A shop fan before the condenser, gauges read again.</summary>
    FanOnCondenser,

    /// <summary>Water mist on the condenser, gauges read again.</summary>
    MistOnCondenser,

    /// <summary>Engine at 2200 turns a minute, gauges read again.</summary>
    RaiseSpeed,

    /// <summary>Blower at low, gauges and vent read again.</summary>
    BlowerLow,

    /// <summary>Cardboard before the condenser, gauges watched.</summary>
    BlockCondenser,

    /// <summary>Windows shut, air recirculated, gauges and vent read again.</summary>
    Recirculate,

    /// <summary>Engine off until all is of one temperature, both gauges read.</summary>
    StandingReading,

    /// <summary>Heater hose pinched off or heater valve shut, vent read again.</summary>
    PinchHeaterHose,

    /// <summary>Does the condenser's fan turn while the compressor runs?</summary>
    LookAtFan,

    /// <summary>Both gauges in the minute after switching off.</summary>
    WatchAfterStop,

    /// <summary>The hand along the liquid line, through the drier to the throttle.</summary>
    FeelLiquidLine,

    /// <summary>Ten minutes off once it has turned warm, then on again.</summary>
    RestTenMinutes,

    /// <summary>A test lamp at the clutch's plug.</summary>
    MeasureClutchVoltage,

    /// <summary>What the engine computer asks of the compressor's control valve, by a scan tool.</summary>
    ReadValveDuty,

    /// <summary>The hand before the vents at full blower.</summary>
    FeelVentAir,

    /// <summary>Recovered into a cylinder on a scale.</summary>
    RecoverAndWeigh,

    /// <summary>Recovered, evacuated and watched under vacuum: does it rise?</summary>
    VacuumHold,
}
