namespace Tightcold.Procedures.Substances;

/// <summary>How bad it is; the worst first. Cautions are told in this order.</summary>
public enum Danger
{
    /// <summary>As things stand now: stop, or look before going on.</summary>
    Now,

    /// <summary>It can kill or maim: fire, burst, explosion, choking, high voltage.</summary>
    Life,

    /// <summary>It can hurt: cold, poison in smoke, moving and hot parts.</summary>
    Hurts,

    /// <summary>It spoils the car, the tools or the gas.</summary>
    Spoils,
}
