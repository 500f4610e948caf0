using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>A check of one spot that would find most a minute.</summary>
/// <param name="Positive">Odds that it shows at least a trace.</param>
/// <param name="FindsPerMinute">Expected leaks that it would make recognisable, a minute of work.</param>
public sealed record SearchCheck(string Spot, LeakTestKind Kind, double Minutes, double Positive, double FindsPerMinute)
{
    /// <summary>A leak is recognised from these odds on.</summary>
    public const double RecognisedFrom = 0.85;

    /// <summary>What one means missed at a spot it misses again, for want of reach: each repeat is worth this of the
    /// last; assumed.</summary>
    private const double RepeatWorth = 0.3;

    /// <summary>The checks that the means of the evidence allow, best first.</summary>
    /// <remarks>
    /// A first look is worth the leaks that it would show and that could then be believed; where something showed, a
    /// look is worth what brings it nearer to being recognised. Information alone would send a person round with looks
    /// that settle nothing.
    /// </remarks>
    public static ImmutableArray<SearchCheck> Rank(TightnessBelief belief, int most)
    {
        var checks = new List<SearchCheck>();
        for (var j = 0; j < belief.Evidence.Spots.Length; j++)
        {
            var spot = belief.Evidence.Spots[j];
            if (spot.Found && spot.MendedAt is null)
                continue;
            foreach (var look in belief.Evidence.Means.Looks)
                checks.Add(Weigh(belief, j, spot, look));
        }
        return
        [
            .. checks
                .Where(check => check.FindsPerMinute > 1e-7)
                .OrderByDescending(check => check.FindsPerMinute)
                .ThenBy(check => check.Spot, StringComparer.Ordinal)
                .Take(most),
        ];
    }

    private static SearchCheck Weigh(TightnessBelief belief, int j, LeakSpot spot, LeakTest look)
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
        var minutes = LeakDetection.Minutes(look.Kind);
        var worth = Math.Pow(RepeatWorth, repeats);
        return new(
            spot.Name,
            look.Kind,
            minutes,
            joint[1] + joint[2] + other[1] + other[2],
            counts ? Math.Max(0, gain) * worth / minutes : 0
        );
    }

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
