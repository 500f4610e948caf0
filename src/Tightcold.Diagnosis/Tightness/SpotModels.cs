using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>The places of a car as the sampler wants them: the listed ones, then the one that nobody named, what was
/// undone, and the hoses.</summary>
internal static class SpotModels
{
    /// <summary>A joint that was undone and closed again leaks with these odds; at most so much for one job.
    /// Assumed.</summary>
    private const double EachJoint = 0.015,
        MostJoints = 0.12;

    /// <summary>More of the leaking cars have a second leak than independent places would give: shares are raised by
    /// this. Assumed; a third of leaking cars then have more than one.</summary>
    private const double Together = 1.3;

    /// <summary>Hoses and gauge set leak at a coupler, a seal or a valve stem; assumed.</summary>
    private const double HosesLeak = 0.12;

    [Said]
    public const string Reassembly = "what was undone and closed again",
        HoseSet = "hoses and gauge set";

    /// <param name="until">Tests and repairs after this time are left out.</param>
    public static SpotModel[] Of(TightnessEvidence evidence, double until)
    {
        var models = new List<SpotModel>();
        foreach (var spot in evidence.Spots)
        {
            var tests = Tests(evidence, spot).Where(test => test.Time <= until).ToArray();
            var then = spot.MendedAt > until ? spot with { MendedAt = null } : spot;
            models.Add(
                new(
                    then,
                    SpotRole.Listed,
                    tests,
                    evidence.Setting,
                    double.NegativeInfinity,
                    Together * LeakPrior.Of(spot.Component).Leaks
                )
            );
        }
        var unknown = LeakPrior.Of(LeakComponent.Unknown);
        models.Add(
            new(
                new(LeakSpot.Elsewhere, LeakComponent.Unknown, []),
                SpotRole.Elsewhere,
                [],
                evidence.Setting,
                double.NegativeInfinity,
                Together * unknown.Leaks
            )
        );
        if (!evidence.Openings.IsEmpty)
            models.Add(
                new(
                    new(Reassembly, LeakComponent.Unknown, []),
                    SpotRole.Reassembly,
                    [],
                    evidence.Setting,
                    evidence.Openings.Max(opening => opening.Time),
                    Math.Min(
                        MostJoints,
                        EachJoint * evidence.Openings.Sum(opening => Math.Max(1, opening.JointsOpened))
                    )
                )
            );
        if (
            evidence.Holds.Any(hold => hold.WithHoses || hold.HosesAlone)
            || evidence.Nitrogen.Any(test => test.WithHoses)
        )
            models.Add(
                new(
                    new(HoseSet, LeakComponent.Joint, []),
                    SpotRole.HoseSet,
                    [],
                    evidence.Setting,
                    double.NegativeInfinity,
                    HosesLeak
                )
            );
        return [.. models];
    }

    /// <summary>A spot's own checks, and its share in every search of the whole circuit.</summary>
    public static ImmutableArray<LeakTest> Tests(TightnessEvidence evidence, LeakSpot spot)
    {
        var tests = spot.Tests;
        foreach (var search in evidence.Searches)
            if (!search.NotReached.Contains(spot.Name, StringComparer.OrdinalIgnoreCase))
                tests = tests.Add(AtSpot(search));
        return tests;
    }

    public static LeakTest AtSpot(WholeSearch search) =>
        search.Like with
        {
            Outcome = LeakTestOutcome.Nothing,
            Seconds = search.Like.Seconds ?? WholeSearch.HastySeconds,
        };
}
