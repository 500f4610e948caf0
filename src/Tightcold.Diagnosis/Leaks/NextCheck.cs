using System.Collections.Immutable;

namespace Tightcold.Diagnosis.Leaks;

/// <summary>A check that could be made next.</summary>
/// <param name="Positive">Probability that it shows at least a trace.</param>
/// <param name="BitsPerMinute">Expected information about whether the spot leaks, per minute of work.</param>
public sealed record NextCheck(string Spot, LeakTestKind Kind, double Minutes, double Positive, double BitsPerMinute)
{
    /// <summary>The checks that these means allow, best first by information per minute.</summary>
    /// <param name="like">For each means, the conditions as they would be now.</param>
    public static ImmutableArray<NextCheck> Rank(LeakBelief belief, IReadOnlyList<LeakTest> like, int most)
    {
        var checks = new List<NextCheck>();
        for (var j = 0; j < belief.Case.Spots.Length; j++)
        {
            var spot = belief.Case.Spots[j];
            if (spot.Found) continue;
            var (leaking, seeping) = belief.RateBelief(j);
            foreach (var test in like) checks.Add(Weigh(spot, test, leaking, seeping, belief.Case.Setting));
        }
        return [.. checks.Where(check => check.BitsPerMinute > 1e-6).OrderByDescending(check => check.BitsPerMinute).ThenBy(check => check.Spot, StringComparer.Ordinal).Take(most)];
    }

    private static NextCheck Weigh(LeakSpot spot, LeakTest test, double[] leaking, double[] seeping, LeakSetting setting)
    {
        double pLeak = leaking.Sum(), pSeep = seeping.Sum(), bits = 0;
        Span<double> joint = stackalloc double[3], other = stackalloc double[3];
        for (var r = 0; r < SpotGrid.Count; r++)
        {
            if (leaking[r] + seeping[r] <= 0) continue;
            var (nothing, trace, clear) = LeakDetection.Outcomes(test, spot.Component, SpotGrid.Rates[r], setting);
            joint[0] += leaking[r] * nothing;
            joint[1] += leaking[r] * trace;
            joint[2] += leaking[r] * clear;
            other[0] += seeping[r] * nothing;
            other[1] += seeping[r] * trace;
            other[2] += seeping[r] * clear;
        }
        for (var o = 0; o < 3; o++)
        {
            var outcome = joint[o] + other[o];
            if (joint[o] > 0) bits += joint[o] * Math.Log2(joint[o] / (outcome * pLeak));
            if (other[o] > 0) bits += other[o] * Math.Log2(other[o] / (outcome * pSeep));
        }
        var positive = joint[1] + joint[2] + other[1] + other[2];
        var repeated = spot.Tests.Any(done => done.Kind == test.Kind && (spot.MendedAt is null || done.Time > spot.MendedAt));
        var minutes = LeakDetection.Minutes(test.Kind);
        return new(spot.Name, test.Kind, minutes, positive, Math.Max(0, bits) * (repeated ? SpotGrid.RepeatWorth : 1) / minutes);
    }
}
