using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.LeakTests;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>A check of one spot that would find most a minute.</summary>
/// <param name="Positive">Odds that it shows at least a trace.</param>
/// <param name="FindsPerMinute">Expected leaks that it would make recognisable, a minute of work.</param>
public sealed record SearchCheck(
    [Said] string Spot,
    LeakTestKind Kind,
    double Minutes,
    double Positive,
    double FindsPerMinute
)
{
    /// <summary>A leak is recognised from these odds on.</summary>
    public const double RecognisedFrom = 0.85;

    /// <summary>What one means missed at a spot it misses again, for want of reach: each repeat is worth this of the
    /// last; assumed.</summary>
    private const double RepeatWorth = 0.3;

    /// <summary>The check of each place that the means of the evidence allow, best first.</summary>
    /// <remarks>
    /// A quick look that misses most leaks has the good one still before it: a round of such looks only puts off the round
    /// that finds. So of the looks that leave hardly more unseen at a place than its best (by −ln(missed)), the quickest.
    /// The places then come by the leaks that this look would show a minute; where something showed, by what brings it
    /// nearer to being recognised.
    /// </remarks>
    public static ImmutableArray<SearchCheck> Rank(TightnessBelief belief, int atMost)
    {
        var checks = new List<SearchCheck>();
        for (var j = 0; j < belief.Evidence.Spots.Length; j++)
        {
            var spot = belief.Evidence.Spots[j];
            if (spot.Found && spot.MendedAt is null)
                continue;
            var looks = belief.Evidence.Means.Looks.Select(look => Weigh(belief, j, spot, look)).ToArray();
            var most = looks.Select(look => look.Settles).DefaultIfEmpty().Max();
            checks.AddRange(
                looks
                    .Where(look => look.Settles > 0 && look.Settles >= AsGood * most)
                    .OrderByDescending(look => look.Settles / look.Check.Minutes)
                    .Select(look => look.Check)
                    .Take(1)
            );
        }
        return
        [
            .. checks
                .Where(check => check.FindsPerMinute > 1e-7)
                .OrderByDescending(check => check.FindsPerMinute)
                .ThenBy(check => check.Spot, StringComparer.Ordinal)
                .Take(atMost),
        ];
    }

    /// <summary>A look at a place, and how far it settles that place.</summary>
    private static (SearchCheck Check, double Settles) Weigh(
        TightnessBelief belief,
        int j,
        LeakSpot spot,
        LeakTest look
    )
    {
        var (leaking, seeping) = belief.RateBelief(j);
        Span<double> joint = stackalloc double[3],
            other = stackalloc double[3];
        var setting = belief.Evidence.Setting;
        var counts = SpotModel.Counts(look with { Outcome = LeakTestOutcome.Nothing }, spot.Component, setting);
        var repeats = spot.Tests.Count(done => done.Kind == look.Kind && !(done.Time <= spot.MendedAt));
        for (var r = 0; r < RateGrid.Count; r++)
        {
            if (leaking[r] + seeping[r] <= 0)
                continue;
            var (nothing, trace, clear) = LeakDetection.Outcomes(look, spot.Component, RateGrid.Values[r], setting);
            joint[0] += leaking[r] * nothing;
            joint[1] += leaking[r] * trace;
            joint[2] += leaking[r] * clear;
            other[0] += seeping[r] * nothing;
            other[1] += seeping[r] * trace;
            other[2] += seeping[r] * clear;
        }
        var pointed = spot.Tests.Any(done => done.Outcome != LeakTestOutcome.Nothing && !(done.Time <= spot.MendedAt));
        var gain = pointed ? Confirms(joint, other) : Finds(joint, other);
        var minutes = look.Kind.Minutes;
        var worth = Math.Pow(RepeatWorth, repeats);
        var perMinute = counts ? Math.Max(0, gain) * worth / minutes : 0;
        var before = joint[0] + joint[1] + joint[2];
        var settles =
            pointed || !(before > 0) ? perMinute * minutes
            : counts ? -Math.Log(Math.Max(joint[0] / before, LeastMissed)) * worth
            : 0;
        return (new(spot.Name, look.Kind, minutes, joint[1] + joint[2] + other[1] + other[2], perMinute), settles);
    }

    /// <summary>A look that settles this share of what the best one does is as good; assumed.</summary>
    private const double AsGood = 0.6;

    /// <summary>No look sees everything; assumed.</summary>
    private const double LeastMissed = 0.02;

    /// <summary>A first look: leaks that it shows, each by the root of the odds that it leaves. A look that cries at
    /// every oily spot finds less than it shows.</summary>
    private static double Finds(ReadOnlySpan<double> joint, ReadOnlySpan<double> other)
    {
        var gain = 0.0;
        for (var o = 1; o < joint.Length; o++)
            if (joint[o] > 0)
                gain += joint[o] * Math.Sqrt(joint[o] / (joint[o] + other[o]));
        return gain;
    }

    /// <summary>Where something showed already: how much nearer to the line a leak comes.</summary>
    private static double Confirms(ReadOnlySpan<double> joint, ReadOnlySpan<double> other)
    {
        double before = joint[0] + joint[1] + joint[2],
            gain = -before * Recognised(before);
        for (var o = 0; o < joint.Length; o++)
            if (joint[o] > 0)
                gain += joint[o] * Recognised(joint[o] / (joint[o] + other[o]));
        return gain;
    }

    private static double Recognised(double odds) => Math.Min(1, Math.Pow(odds / RecognisedFrom, 2));
}
