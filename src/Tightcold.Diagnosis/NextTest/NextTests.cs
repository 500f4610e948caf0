using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.NextTest.Tests;

namespace Tightcold.Diagnosis.NextTest;

/// <summary>
/// Which test tells most: a sample of the cars that fit is run through each test by the loop model, made to read with
/// the instruments' errors, and the odds are worked out again for each. The expected fall of entropy (Lindley 1956,
/// Ann. Math. Stat. 27, 986) over the time and outlay ranks the tests. What a channel's fixed error is already known to
/// be from earlier readings is kept, so a change of running speaks through its difference.
/// </summary>
public static class NextTests
{
    private const int Sample = 160;

    // Below this a test is not worth its time, bits.
    private const double LeastBits = 0.02;

    /// <summary>Tests worth doing, best for its cost first.</summary>
    /// <param name="answer">What is known now.</param>
    /// <param name="seed">Makes the sampling repeatable; the job's.</param>
    public static ImmutableArray<TestValue> Of(FaultOdds answer, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var cars = SampledCars.Of(answer.Posterior, Sample);
        if (cars is null)
            return [];
        var values = new List<TestValue>();
        var now = new Situation(answer.Posterior.Data.Evidence);
        foreach (var plan in TestPlan.For(now))
        {
            var chance = new Chance(seed + (ulong)plan.Kind.Order);
            var value = TestOutcomes.Value(plan, cars, chance);
            if (value.Meanings.Any(meaning => meaning.Expected.High > plan.StopsAbovePa))
                continue;
            values.Add(value);
            values.AddRange(
                TestKind
                    .All.Where(test => test.InTheRunOf == plan.Kind.Key)
                    .SelectMany(test => test.Plans(test, now))
                    .Select(also => TestOutcomes.Value(also, cars, chance))
            );
        }

        return [.. values.Where(value => value.Bits >= LeastBits).OrderByDescending(value => value.BitsPerCost)];
    }
}
