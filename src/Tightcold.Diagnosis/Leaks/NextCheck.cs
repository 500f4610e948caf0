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
        double pLeak = leaking.Sum(), pSeep = seeping.Sum(), bits = 0, positive = 0;
        for (var o = 0; o < 3; o++)
        {
            double joint = 0, other = 0;
            for (var r = 0; r < SpotGrid.Count; r++)
            {
                if (leaking[r] + seeping[r] <= 0) continue;
                var likelihood = LeakDetection.Likelihood(test with { Outcome = (LeakTestOutcome)o }, spot.Component, SpotGrid.Rates[r], setting);
                joint += leaking[r] * likelihood;
                other += seeping[r] * likelihood;
            }
            var outcome = joint + other;
            if (joint > 0 && pLeak > 0) bits += joint * Math.Log2(joint / (outcome * pLeak));
            if (other > 0 && pSeep > 0) bits += other * Math.Log2(other / (outcome * pSeep));
            if (o > 0) positive += outcome;
        }
        var repeated = spot.Tests.Any(done => done.Kind == test.Kind && (spot.MendedAt is null || done.Time > spot.MendedAt));
        var minutes = LeakDetection.Minutes(test.Kind);
        return new(spot.Name, test.Kind, minutes, positive, Math.Max(0, bits) * (repeated ? SpotGrid.RepeatWorth : 1) / minutes);
    }
}
