namespace Tightcold.Properties.Tables;

/// <summary>What lies along an isobar of the tables.</summary>
internal enum PressureRegime : byte
{
    /// <summary>Gas only: the lowest temperature of the tables is above saturation.</summary>
    GasOnly,

    /// <summary>Liquid, dome and gas.</summary>
    Subcritical,

    /// <summary>So close to the critical pressure that the reference equations answer.</summary>
    Critical,

    /// <summary>Above the critical pressure: liquid-like below the critical isochore, gas-like above.</summary>
    Supercritical,
}
