namespace Tightcold.Properties;

/// <summary>The phase of a state. Every state names one; there is no "unknown".</summary>
public enum FluidPhase
{
    /// <summary>Liquid: below the critical temperature, above the saturation pressure.</summary>
    Liquid,

    /// <summary>Gas: below the saturation pressure, or above the critical temperature below the critical
    /// pressure.</summary>
    Gas,

    /// <summary>Liquid and vapour in equilibrium, quality 0 and 1 included.</summary>
    TwoPhase,

    /// <summary>Above both critical temperature and critical pressure.</summary>
    Supercritical,
}
