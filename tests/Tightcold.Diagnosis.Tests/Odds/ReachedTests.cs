using System.Collections.Immutable;
using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.NextTest;
using Tightcold.Diagnosis.NextTest.Tests;
using Tightcold.Diagnosis.Priors;
using Tightcold.LeakTests;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;

namespace Tightcold.Diagnosis.Tests.Odds;

/// <summary>A fault, a leak test or a next test that stands in its file is also weighed, seen with and offered.</summary>
public sealed class ReachedTests
{
    private static readonly ImmutableArray<CarKnowledge> Cars =
    [
        .. from compressor in Enum.GetValues<CompressorKind>()
        from expansion in Enum.GetValues<ExpansionKind>()
        select new CarKnowledge("R134a") { Compressor = compressor, Expansion = expansion },
    ];

    [Fact]
    public void Every_fault_is_weighed_in_some_car_and_does_something_to_it()
    {
        foreach (var fault in Fault.All)
        {
            Assert.Contains(Cars, car => HypothesisSet.For(car).Any(one => one.Faults is [var only] && only == fault));
            var z = new double[Coordinate.Count];
            var (share, model) = FaultPrior.Of([fault], z);
            Assert.True(
                model != LoopFaults.None
                    || fault.Attack is not null
                    || fault == Fault.WrongRefrigerant
                    || share != FaultPrior.ChargeShare([], 0),
                $"{fault} is a sound car"
            );
        }
    }

    /// <summary>Its severity stays between “worth mending” and the worst.</summary>
    [Fact]
    public void Every_fault_is_as_bad_as_it_says()
    {
        foreach (var fault in Fault.All)
        foreach (var z in new[] { -4.0, -1, 0, 1, 4 })
            Assert.InRange(fault.Severities.At(z), fault.Severities.Least, fault.Severities.Most);
    }

    [Fact]
    public void A_pair_has_a_number_of_its_own_and_faults_that_one_car_can_have()
    {
        var pairs = Fault.All.SelectMany(first => first.With.Select(other => (First: first, Other: other))).ToArray();
        Assert.Distinct(pairs.Select(pair => pair.Other.Order));
        Assert.All(pairs, pair => Assert.Contains(Cars, car => pair.First.Fits(car) && pair.Other.Fault.Fits(car)));
    }

    [Fact]
    public void Every_leak_test_would_show_a_large_leak_somewhere()
    {
        foreach (var kind in LeakTestKind.All)
        {
            var look = new LeakTest(kind, LeakTestOutcome.Nothing, 665_400, 900, 0, false, true, 0);
            Assert.Contains(Enum.GetValues<LeakComponent>(), component =>
                LeakDetection.Seen(look, component, 1000 * LeakPrior.GramPerYear, LeakSetting.Usual).Seen > 0.5
                && LeakDetection.Blindness(look, component, LeakSetting.Usual)
                    is LeakBlindness.None
                        or LeakBlindness.TooCoarse
            );
        }
    }

    [Fact]
    public void Every_next_test_is_offered_for_some_reading()
    {
        var now = new Situation(ACase.Of(ACase.Point().Gauges(2, 9)));
        var offered = TestPlan.For(now).Select(plan => plan.Kind).ToHashSet();
        foreach (var test in TestKind.All)
            if (TestKind.Find(test.InTheRunOf) is { } other)
                Assert.True(offered.Contains(other) && test.Plans(test, now).Any(), test.Key);
            else
                Assert.Contains(test, offered);
        // What it would read, see or find is said.
        Assert.All(TestPlan.For(now), plan =>
            Assert.True(
                !plan.Channels.IsEmpty || !plan.Signs.IsEmpty || plan.Seen is not null || plan.Outcome is not null,
                plan.Kind.Key
            )
        );
    }
}
