namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// What the instruments would show without error while the car runs: gauge pressures swing where the clutch cycles.
/// </summary>
public sealed record Running
{
    public required bool Trusted { get; init; }

    /// <summary>The compressor turns and does not pump: lines are as warm as the bay.</summary>
    public bool Dead { get; init; }
    public required Setup Setup { get; init; }
    public required Working State { get; init; }
    public required bool ClutchIn { get; init; }
    public required double LowMinPa { get; init; }
    public required double LowMaxPa { get; init; }
    public required double HighMinPa { get; init; }
    public required double HighMaxPa { get; init; }

    /// <summary>Switching-on events a minute; 0 when the clutch stays in (or never pulls in).</summary>
    public required double CyclesPerMinute { get; init; }

    /// <summary>Share of time that the clutch is in.</summary>
    public required double Duty { get; init; }
    public required double VentC { get; init; }
}
