namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// A car, what is wrong with it, and what was read. Whether the fault can be seen is told by the readings' truth.
/// </summary>
public sealed record CarCase
{
    public required ulong Seed { get; init; }
    public required CarBuild Car { get; init; }
    public required IReadOnlyList<Fault> Faults { get; init; }
    public required Condition Condition { get; init; }
    public required double StandingPa { get; init; }
    public required IReadOnlyList<PointRead> Points { get; init; }

    /// <summary>
    /// The fault moves a reading further than the instruments err: 0.3 bar low, 1 bar high, 3 K at the vent.
    /// </summary>
    public required bool Seen { get; init; }

    /// <summary>Nobody overlooks it: 0.8 bar low, 4 bar high, 8 K at the vent, or a clutch that stays out.</summary>
    public required bool Gross { get; init; }

    /// <summary>Charge inside, kg.</summary>
    public double ChargeKg => Condition.ChargeKg ?? Car.LabelKg;

    /// <summary>Seconds until both sides are equal after switching off.</summary>
    public required double EqualAfterS { get; init; }

    /// <summary>Fall of the high side in the first seconds after switching off, Pa.</summary>
    public required double FallAtStopPa { get; init; }
}
