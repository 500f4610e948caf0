namespace Tightcold.Loop.Faults;

/// <summary>
/// What is wrong, as continuous severities that may be combined. 0 is sound and 1 the worst the model knows, unless
/// said. The charge itself is an input of the solve and not a fault here.
/// </summary>
public sealed record LoopFaults
{
    /// <summary>Nothing wrong.</summary>
    public static LoopFaults None { get; } = new();

    /// <summary>Air in the circuit: what a soaked system shows above the refrigerant's own pressure at 25 °C,
    /// Pa.</summary>
    public double AirExcessPa { get; init; }

    /// <summary>Share of the condenser's air that a blocked face keeps out, whoever blows it.</summary>
    public double CondenserAirLoss { get; init; }

    /// <summary>Share of the air of the car's own fan that is lacking; a fan set before the condenser makes it
    /// up.</summary>
    public double CondenserFanLoss { get; init; }

    /// <summary>Share of the condenser's conductance lost to dirt or bent fins with the air still moving.</summary>
    public double CondenserFouling { get; init; }

    /// <summary>Share of the evaporator's air that is lacking (cabin filter, ice, leaves).</summary>
    public double EvaporatorAirLoss { get; init; }

    /// <summary>Valve held towards fully open.</summary>
    public double ValveStuckOpen { get; init; }

    /// <summary>Valve held towards closed, or its bulb's charge lost.</summary>
    public double ValveStuckClosed { get; init; }

    /// <summary>Share of the orifice tube's area plugged.</summary>
    public double TubePlugged { get; init; }

    /// <summary>A tube too large, its seal gone, or none at all: at 1 four times the area.</summary>
    public double TubeOversize { get; init; }

    /// <summary>Share of the liquid line's area closed (drier, kinked line, filter).</summary>
    public double LiquidLineRestriction { get; init; }

    /// <summary>Share of the throttle's area closed by ice whenever it runs cold; comes and goes.</summary>
    public double MoistureIce { get; init; }

    /// <summary>Share of the throttle's area that ice closes at this moment, whatever the temperature.</summary>
    public double ThrottleIced { get; init; }

    /// <summary>Leak inside the compressor: at 1 it delivers nothing and turns twice the work into heat.</summary>
    public double CompressorWear { get; init; }

    /// <summary>Share of the turns the clutch or belt does not pass on; 1 is a clutch that does not pull.</summary>
    public double ClutchSlip { get; init; }

    /// <summary>Stroke or speed held towards its least.</summary>
    public double ControlStuckLow { get; init; }

    /// <summary>Stroke or speed held towards its most.</summary>
    public double ControlStuckHigh { get; init; }

    /// <summary>Share of the vent air that goes through the heater core though it should not.</summary>
    public double BlendDoorLeak { get; init; }

    /// <summary>Oil above what belongs in, kg.</summary>
    public double ExcessOilKg { get; init; }

    /// <summary>The cycling switch (or fin thermostat, by its saturation pressure) opens and closes this much too high,
    /// Pa; negative too low.</summary>
    public double SwitchOffsetPa { get; init; }
}
