using System.Collections.Immutable;

namespace Tightcold.Picture.Mass;

/// <summary>What other jobs left in a container before this one: kept for the container as it is described in the kit;
/// one described anew (another can under an old name, a new mass on the scale) begins afresh.</summary>
/// <param name="Name">Of the container.</param>
/// <param name="NetKg">Still in it; null when it was used and nothing tells how much is left.</param>
/// <param name="SigmaKg">Standard deviation of that.</param>
/// <param name="GrossKg">What the scale showed last; null when it was never weighed.</param>
/// <param name="Job">The last job that used it.</param>
public sealed record ShelfContent(string Name, double? NetKg, double SigmaKg, double? GrossKg, int Job)
{
    public static readonly ImmutableArray<ShelfContent> None = [];
}

/// <summary>How the content of a container is known.</summary>
public enum ContentKnown
{
    /// <summary>From the scale and its tare.</summary>
    Weighed,

    /// <summary>What its label says, taken for unopened: nobody weighed it, or its tare is not known.</summary>
    AsSold,

    /// <summary>Used before, by an amount that nobody knows.</summary>
    UsedBefore,

    /// <summary>Given until nothing came any more.</summary>
    Emptied,
}
