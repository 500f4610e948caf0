namespace Tightcold.Jobs.Kinds;

/// <summary>What an entry does to what is inside the circuit. A kind names its own; how the circuit changes by it is
/// worked out where the circuit is.</summary>
public enum CircuitEffect
{
    /// <summary>Looked at, told, paid: the circuit stays as it was.</summary>
    None,

    /// <summary>Both sides read with the engine off: air, or a filling that nobody wrote down, shows.</summary>
    ReadAtRest,

    /// <summary>The engine runs: nobody pumps or holds, and cold says that something was filled.</summary>
    ReadRunning,

    /// <summary>Refrigerant taken out.</summary>
    TakesOut,

    /// <summary>A joint opened to the air.</summary>
    Opens,

    /// <summary>A joint shut again.</summary>
    Closes,

    /// <summary>A part or seal changed, which opens what was not opened before.</summary>
    Changes,

    /// <summary>Oil moved: another charge of oil, nothing else.</summary>
    MovesOil,

    /// <summary>The vacuum pump starts or stops.</summary>
    Pumps,

    /// <summary>A vacuum read.</summary>
    ReadsVacuum,

    /// <summary>Test gas in.</summary>
    TestGas,

    /// <summary>A can connected, opened, shut, taken off.</summary>
    MovesContainer,

    /// <summary>A scale read: what became lighter gave something.</summary>
    Weighs,

    /// <summary>The job closed: pump and can are shut.</summary>
    ClosesJob,
}
