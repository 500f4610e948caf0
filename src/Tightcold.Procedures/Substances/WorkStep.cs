namespace Tightcold.Procedures.Substances;

/// <summary>What the hands do, as far as a substance cares.</summary>
public enum WorkStep
{
    /// <summary>Couplers on, gauges read, engine off or on.</summary>
    Gauges,

    /// <summary>Looking for leaks by lamp, detector, bubbles, test gas.</summary>
    LeakSearch,

    /// <summary>Out of the car into a cylinder.</summary>
    Recover,

    /// <summary>Joints open, parts and oil changed.</summary>
    Mend,

    /// <summary>The vacuum pump runs.</summary>
    PumpDown,

    /// <summary>The circuit under test pressure or vacuum, closed.</summary>
    Holding,

    /// <summary>From can or cylinder into the car.</summary>
    Charge,

    /// <summary>Engine on, doors open or shut, the vent measured.</summary>
    Run,

    /// <summary>Cylinders and cans put away, written down, sent off.</summary>
    Store,
}
