using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Leaks;

/// <summary>A spot with what was done there.</summary>
/// <param name="MendedAt">Time of the last repair, on the clock of the tests; null when none.</param>
/// <param name="Found">A person called it a leak and has not mended it: it is known, not remaining.</param>
public sealed record LeakSpot(
    [Said] string Name,
    LeakComponent Component,
    ImmutableArray<LeakTest> Tests,
    double? MendedAt = null,
    bool Found = false
)
{
    /// <summary>Name of the place that nobody listed: a search can never be quite complete.</summary>
    [Said]
    public const string Elsewhere = "a place not on the map";
}
