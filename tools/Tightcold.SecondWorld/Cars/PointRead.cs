namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// What a person writes down of one running point, errors in it. Gauge pressures in Pa, temperatures in °C.
/// </summary>
public sealed record PointRead
{
    public required Setup Setup { get; init; }
    public required double LowMinPa { get; init; }
    public required double LowMaxPa { get; init; }
    public required double HighMinPa { get; init; }
    public required double HighMaxPa { get; init; }
    public required double CyclesPerMinute { get; init; }
    public required bool ClutchIn { get; init; }
    public required double VentC { get; init; }

    /// <summary>Air that the blower takes in.</summary>
    public required double InletC { get; init; }
    public required double AmbientC { get; init; }
    public required double Humidity { get; init; }
    public required double SuctionLineC { get; init; }
    public required double LiquidLineC { get; init; }
    public required double DischargeLineC { get; init; }
    public required double ValveInC { get; init; }
    public required double EvaporatorInC { get; init; }
    public required double EvaporatorOutC { get; init; }
    public required Glass Glass { get; init; }
    public required Frost Frost { get; init; }
    public required bool WeakAir { get; init; }
}

/// <summary>What the sight glass shows.</summary>
public enum Glass
{
    NotThere,
    Clear,
    Bubbles,
    Foam,
}

/// <summary>Where frost is seen.</summary>
public enum Frost
{
    Nowhere,
    ValveOrEvaporatorInlet,
    SuctionLine,
    LiquidLineOrDrier,
}
