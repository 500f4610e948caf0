namespace Tightcold.Diagnosis.Priors;

/// <summary>How refrigerant last went in.</summary>
public enum FilledHow
{
    /// <summary>Into an emptied circuit, by the scale.</summary>
    ByWeight,

    /// <summary>Full by what somebody says, without a scale.</summary>
    NotWeighed,

    /// <summary>On top of a charge that nobody knew.</summary>
    ToppedUp,
}
