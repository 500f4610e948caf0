using Tightcold.SecondWorld.Leaks;

namespace Tightcold.SecondWorld.Vacuum;

/// <summary>A reading of the hold: what the gauge shows, absolute, and the thermometer on a part.</summary>
public readonly record struct HoldRead(double Minute, double ShownPa, double PartC);

/// <summary>A vacuum job of the second world with its truth.</summary>
public sealed record VacuumCase
{
    public required ulong Seed { get; init; }
    public required double VolumeM3 { get; init; }
    public required double HoseVolumeM3 { get; init; }

    /// <summary>
    /// What the circuit loses as refrigerant, g/yr at the reference of <see cref="Leaks.Leak"/>; hoses left out.
    /// </summary>
    public required double CircuitGramPerYear { get; init; }

    /// <summary>Of that, what is not a lip that shuts under vacuum.</summary>
    public required double SeenUnderVacuumGramPerYear { get; init; }
    public required double HoseGramPerYear { get; init; }

    /// <summary>Air into the circuit and hoses at full vacuum, Pa·m³/s.</summary>
    public required double AirFlowPaM3PerS { get; init; }

    /// <summary>
    /// Water left at isolation, g: free, in the oil above what new oil holds, and on the drier above a dry one.
    /// </summary>
    public required double FreeWaterG { get; init; }
    public required double OilWaterG { get; init; }
    public required double OilRefrigerantG { get; init; }
    public required double DayC { get; init; }
    public required double PumpedMinutes { get; init; }
    public required bool DialOnly { get; init; }
    public required IReadOnlyList<HoldRead> PumpDown { get; init; }
    public required IReadOnlyList<HoldRead> Hold { get; init; }

    /// <summary>Every leak of the circuit, to be looked at.</summary>
    public required IReadOnlyList<Leak> Leaks { get; init; }
}
