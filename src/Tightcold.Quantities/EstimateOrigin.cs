namespace Tightcold.Quantities;

/// <summary>Where an estimate comes from. Model output is never called measured.</summary>
public enum EstimateOrigin
{
    /// <summary>Read off an instrument; the interval is the instrument's.</summary>
    Measured,

    /// <summary>Computed from readings by an equation of state or a balance.</summary>
    Computed,

    /// <summary>From a model with parameters that nobody measured on this car.</summary>
    Modelled,

    /// <summary>Assumed by class or habit.</summary>
    Assumed,
}
