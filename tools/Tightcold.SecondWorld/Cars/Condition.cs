namespace Tightcold.SecondWorld.Cars;

/// <summary>What is not as built in a car, as physics: areas, flows, masses. The default is a sound car.</summary>
public sealed record Condition
{
    /// <summary>Refrigerant inside, kg; null for the label's.</summary>
    public double? ChargeKg { get; init; }

    /// <summary>Air inside, mol.</summary>
    public double AirMol { get; init; }
    public double FanPressureFactor { get; init; } = 1;
    public bool FanDead { get; init; }

    /// <summary>Air resistance of the condenser against the clean one.</summary>
    public double CoreResistanceFactor { get; init; } = 1;

    /// <summary>Share of the condenser's tubes that still carry refrigerant.</summary>
    public double OpenTubes { get; init; } = 1;

    /// <summary>Drop of the restricted liquid line per squared flow, Pa·kg/m³ per (kg/s)².</summary>
    public double LineRestriction { get; init; }

    /// <summary>True when the restriction is the drier: its outlet is cold, its inlet warm.</summary>
    public bool RestrictionInDrier { get; init; }
    public double? ValveStuckAt { get; init; }
    public double OrificeFactor { get; init; } = 1;
    public double BlowByM2 { get; init; }

    /// <summary>
    /// Difference between the sides that a compressor with broken reeds still makes, Pa; null for one that pumps.
    /// </summary>
    public double? DeadHeadPa { get; init; }
    public bool ClutchOpen { get; init; }
    public double? StrokeStuckAt { get; init; }
    public double EvaporatorAirFactor { get; init; } = 1;
    public double EvaporatorSurfaceFactor { get; init; } = 1;
    public double HeaterShare { get; init; }
    public bool WaterFreezes { get; init; }

    /// <summary>Mole share of another refrigerant that raises the vapour pressure by this factor (wrong gas).</summary>
    public double VapourPressureFactor { get; init; } = 1;
}
