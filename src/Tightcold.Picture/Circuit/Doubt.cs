namespace Tightcold.Picture.Circuit;

/// <summary>Why a pair of gauges cannot have read this circuit.</summary>
public enum Doubt
{
    /// <summary>Engine off and the low side stands above the high side; running, the low side above the high one: hoses
    /// changed over, or a gauge off.</summary>
    ChangedOver,

    /// <summary>Higher than anything that may be in it can stand at this temperature: a unit, a digit, or another
    /// gauge.</summary>
    TooHigh,

    /// <summary>Standing pressure of an engine that runs: the two sides are far apart.</summary>
    NotAtRest,
}
