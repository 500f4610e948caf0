namespace Tightcold.Diagnosis.Priors;

/// <summary>
/// The unknowns of one explanation, each a standard normal number before any reading. The numbering is the order in the
/// sampler's points.
/// </summary>
internal static class Coordinate
{
    public const int Severity = 0;
    public const int SecondSeverity = 1;
    public const int Charge = 2;
    public const int CondenserUa = 3;
    public const int FaceSpeed = 4;
    public const int Reentry = 5;
    public const int Displacement = 6;
    public const int Volumetric = 7;
    public const int CoilNtu = 8;
    public const int Blower = 9;
    public const int ThrottleArea = 10;

    /// <summary>Static superheat, or the set point of the capacity control.</summary>
    public const int ValveSetting = 11;

    /// <summary>Liquid held in the exchangers.</summary>
    public const int Volumes = 12;
    public const int Humidity = 13;
    public const int Ambient = 14;
    public const int Isentropic = 15;
    public const int LineHeat = 16;

    /// <summary>Switch and thermostat set points.</summary>
    public const int Switches = 17;
    public const int Cabin = 18;
    public const int EngineSpeed = 19;

    /// <summary>Which of the kinds of circuit, where it is not known.</summary>
    public const int Kind = 20;

    /// <summary>Which form a fault takes: a fan that fails or fins that are blocked, a switch too high or too
    /// low.</summary>
    public const int Form = 21;
    public const int Control = 22;

    public const int Store = 23;
    public const int LineDrop = 24;

    /// <summary>Ducts and what the coil lets by.</summary>
    public const int Duct = 25;

    /// <summary>How far the condenser's fan is held back in mild weather.</summary>
    public const int FanStage = 26;

    public const int Count = 27;
}
