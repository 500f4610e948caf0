namespace Tightcold.Quantities;

/// <summary>What a number means. Two kinds may share an SI unit and still never be mixed: gauge and absolute
/// pressure, a temperature and a difference of temperatures.</summary>
public enum QuantityKind
{
    /// <summary>Kelvin, on the absolute scale.</summary>
    Temperature,

    /// <summary>Kelvin, a difference: superheat, subcooling.</summary>
    TemperatureDifference,

    /// <summary>Pascal above vacuum.</summary>
    AbsolutePressure,

    /// <summary>Pascal above the surrounding air; negative in vacuum.</summary>
    GaugePressure,

    /// <summary>Pascal above vacuum, in the range where a vacuum gauge is read (micron, mbar).</summary>
    Vacuum,

    /// <summary>Pascal, a difference or an uncertainty of pressures.</summary>
    PressureDifference,

    /// <summary>Kilogram.</summary>
    Mass,

    /// <summary>Cubic metre of oil or other small liquid amounts.</summary>
    LiquidVolume,

    /// <summary>Cubic metre inside a system or a cylinder.</summary>
    InternalVolume,

    /// <summary>Metre of hose.</summary>
    Length,

    /// <summary>Metre, a bore.</summary>
    Bore,

    /// <summary>Metre above sea level.</summary>
    Altitude,

    /// <summary>0 to 1; shown in percent.</summary>
    Ratio,

    /// <summary>0 to 1; relative humidity, shown in percent.</summary>
    RelativeHumidity,

    /// <summary>Second.</summary>
    Duration,

    /// <summary>Revolutions per second.</summary>
    RotationalSpeed,

    /// <summary>Cubic metre per second.</summary>
    VolumeFlow,

    /// <summary>Kilogram per second leaving the system; shown as g/yr.</summary>
    LeakRate,

    /// <summary>Pascal cubic metre per second; shown as mbar·L/s.</summary>
    GasThroughput,

    /// <summary>Pascal per second; shown as micron or mbar per minute.</summary>
    PressureRise,

    /// <summary>A plain number: cycles a minute, a pressure ratio.</summary>
    Number,
}
