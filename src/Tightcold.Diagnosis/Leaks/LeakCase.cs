using System.Collections.Immutable;

namespace Tightcold.Diagnosis.Leaks;

/// <summary>All that is known of a car's leaks.</summary>
public sealed record LeakCase(ImmutableArray<LeakSpot> Spots, ImmutableArray<LossObservation> Losses, LeakSetting Setting, ulong Seed)
{
    /// <summary>The last vacuum hold, or null.</summary>
    public HoldObservation? Hold { get; init; }

    /// <summary>Name of the place that nobody listed.</summary>
    public const string Elsewhere = "a place not on the map";

    /// <summary>The listed spots and, last, a place nobody thought of: a search can never be quite complete.</summary>
    public ImmutableArray<LeakSpot> AllSpots => Spots.Add(new(Elsewhere, LeakComponent.Unknown, []));
}
