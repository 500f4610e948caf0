using Tightcold.LeakTests;

namespace Tightcold.Diagnosis.Leaks;

/// <summary>One test at one spot, with what decides whether it could have seen anything.</summary>
/// <param name="PressurePa">In the system then, absolute; null when not written down.</param>
/// <param name="Seconds">Spent there; null when not written down.</param>
/// <param name="Wind">0 still, 1 breeze, 2 windy.</param>
/// <param name="OldDye">Old dye may glow there.</param>
/// <param name="EverDyed">Whether dye was ever put in; null when unknown.</param>
/// <param name="Time">When, in seconds on any clock: the order against repairs.</param>
public readonly record struct LeakTest(
    LeakTestKind Kind,
    LeakTestOutcome Outcome,
    double? PressurePa,
    double? Seconds,
    int Wind,
    bool OldDye,
    bool? EverDyed,
    double Time
)
{
    /// <summary>The person says that nothing could have been seen: it moves nothing.</summary>
    public bool Blind { get; init; }
}
