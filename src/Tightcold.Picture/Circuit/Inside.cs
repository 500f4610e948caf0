namespace Tightcold.Picture.Circuit;

/// <summary>What stands in the circuit.</summary>
public enum Inside
{
    /// <summary>What the car brought: refrigerant, as much as is left.</summary>
    AsItCame,

    /// <summary>Recovered, and not opened since: the last of the vapour.</summary>
    Recovered,

    /// <summary>Air, and the water in it: opened, or found without pressure.</summary>
    Air,

    /// <summary>Nitrogen of a pressure test, under pressure or let down.</summary>
    Nitrogen,

    /// <summary>Pulled down.</summary>
    Vacuum,

    /// <summary>Refrigerant filled in here.</summary>
    Charge,
}

/// <summary>What a charge was filled on top of.</summary>
public enum Foreign
{
    Nothing,
    Air,
    Nitrogen,
}
