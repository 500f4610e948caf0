namespace Tightcold.Loop.Designs;

/// <summary>What throttles the liquid, and with it where spare refrigerant is stored.</summary>
public enum ExpansionKind
{
    /// <summary>Thermostatic valve, receiver on the high side.</summary>
    ExpansionValve,

    /// <summary>Fixed tube, accumulator on the low side.</summary>
    OrificeTube,
}
