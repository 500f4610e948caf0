namespace Tightcold.Loop.Designs;

/// <summary>A car known only roughly.</summary>
public enum SizeClass
{
    /// <summary>Small car.</summary>
    Small,

    /// <summary>Ordinary car.</summary>
    Medium,

    /// <summary>Large car, van or light truck.</summary>
    Large,

    /// <summary>Front and rear evaporators, taken together as one.</summary>
    Dual,
}
