namespace Tightcold.Diagnosis.Priors;

/// <summary>What can be wrong, each worth a repair of its own. Slight wear that no one would mend is not a fault here
/// but part of the spread of healthy cars.</summary>
public enum Fault
{
    /// <summary>Less than four fifths of the label's charge, and so little that the circuit shows it: liquid runs
    /// short. A shortage that receiver or accumulator still covers is no different from a sound car to any
    /// gauge.</summary>
    Undercharge,

    /// <summary>More than about an eighth above the label's charge.</summary>
    Overcharge,

    /// <summary>Air or nitrogen in the circuit.</summary>
    AirInside,

    /// <summary>Fan, shroud or face of the condenser: too little air, or fins that no longer pass heat.</summary>
    CondenserAir,

    /// <summary>Too little air over the evaporator: cabin filter, blower, leaves, ice.</summary>
    EvaporatorAir,

    ValveStuckOpen,

    /// <summary>Stuck towards closed, or its bulb's charge lost.</summary>
    ValveStuckClosed,

    TubePlugged,

    /// <summary>Drier, kinked liquid line or screen.</summary>
    LineRestricted,

    /// <summary>Water freezing in the throttle; comes and goes.</summary>
    MoistureIce,

    CompressorWorn,

    ClutchSlips,

    /// <summary>The compressor does not turn though its clutch is given voltage.</summary>
    ClutchDead,

    /// <summary>Stroke or speed held small.</summary>
    ControlStuckLow,

    /// <summary>Stroke or speed held large.</summary>
    ControlStuckHigh,

    /// <summary>Warm air from the heater core gets into the vents.</summary>
    BlendDoorLeaks,

    OilExcess,

    /// <summary>Cycling switch or fin thermostat opens at the wrong point.</summary>
    SwitchMisset,

    /// <summary>The clutch gets no voltage: fuse, relay, wire, pressure switch or sensor, or the engine computer
    /// forbids it.</summary>
    NoVoltage,

    /// <summary>A variable compressor whose control valve is not commanded; the valve itself may be well.</summary>
    ControlNotAsked,

    /// <summary>Orifice tube too large, its seal gone, or none in it.</summary>
    TubeOversized,

    /// <summary>Filled with another refrigerant than the label's, or a mixture.</summary>
    WrongRefrigerant,
}
