using System.Collections.Immutable;

namespace Tightcold.Picture.Circuit;

/// <summary>What is in the circuit, and what is going on at it, after an entry.</summary>
public sealed record CircuitState
{
    public static CircuitState AtTheStart { get; } = new();

    public Inside Inside { get; init; } = Inside.AsItCame;

    /// <summary>It came without pressure, or in vacuum: there is a hole, and air and water went in.</summary>
    public bool CameOpen { get; init; }

    /// <summary>What went in with the charge that stands there now.</summary>
    public Foreign ChargedOnto { get; init; } = Foreign.Nothing;

    /// <summary>Filled in on top of a rest that nobody weighed.</summary>
    public bool OntoARest { get; init; }

    /// <summary>Its pressures, or its cold, show that somebody filled it and did not write that down.</summary>
    public bool Unwritten { get; init; }

    /// <summary>Spots that stand open, and since when.</summary>
    public ImmutableArray<OpenSpot> Open { get; init; } = [];

    /// <summary>How often it was opened.</summary>
    public int Openings { get; init; }

    /// <summary>Opened, or a part changed, since the last pump-down: air and water went in.</summary>
    public bool OpenedSinceVacuum { get; init; }

    /// <summary>Since when the pump pulls; null when it does not.</summary>
    public DateTimeOffset? PumpingSince { get; init; }

    /// <summary>First and last reading of a hold that goes on.</summary>
    public (DateTimeOffset First, DateTimeOffset Last)? Holding { get; init; }

    /// <summary>The container whose valve stands open towards the circuit, and since when.</summary>
    public OpenContainer? Giving { get; init; }

    /// <summary>Containers on a hose.</summary>
    public ImmutableArray<string> Connected { get; init; } = [];

    /// <summary>Counts the stretches in which the machine does not change: readings of one are of the same
    /// car.</summary>
    public int Epoch { get; init; }

    /// <summary>Refrigerant stands in it, own or filled in: it may run, be read and be searched.</summary>
    public bool HoldsRefrigerant => Inside is Inside.AsItCame or Inside.Charge;

    /// <summary>Air or nitrogen must be pulled out before anything is filled in.</summary>
    public bool NeedsVacuum => Inside is Inside.Air or Inside.Nitrogen or Inside.Recovered;
}

public readonly record struct OpenSpot(string Spot, DateTimeOffset Since);

public readonly record struct OpenContainer(string Name, DateTimeOffset Since, bool Inverted, double? BathK);
