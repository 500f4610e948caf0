using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;

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
        foreach (var plan in TestPlan.For(answer.Posterior.Data.Evidence))
        {
            var chance = new Chance(seed + (ulong)plan.Kind);
            var value = TestOutcomes.Value(plan, cars, chance);
            // A test that would be stopped before its outcome is none.
            if (
                plan.Kind == TestKind.BlockCondenser
                && value.Meanings.Any(meaning => meaning.Expected.High > TestPlan.BlockedStopPa)
            )
                continue;
            values.Add(value);
            // The same run may be looked at through the glass; whether one is fitted is not known.
            if (
                plan.Kind == TestKind.ClampLiquidLine
                && answer.Posterior.Data.Evidence.Points is [.., { Glass: GlassSeen.NotLooked } last]
            )
                values.Add(
                    TestOutcomes.Value(
                        new(TestKind.LookAtGlass, 2, 0, []) { Point = plan.Point! with { Aid = last.Aid } },
                        cars,
                        chance
                    )
                );
        }

        return [.. values.Where(value => value.Bits >= LeastBits).OrderByDescending(value => value.BitsPerCost)];
    }
}
