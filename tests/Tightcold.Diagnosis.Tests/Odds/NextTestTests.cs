using Tightcold.Diagnosis.NextTest;
using Tightcold.Diagnosis.NextTest.Tests;

namespace Tightcold.Diagnosis.Tests.Odds;

public sealed class NextTestTests
{
    [Fact]
    public void Tests_are_ranked_by_what_they_tell_for_their_cost_and_say_what_each_outcome_would_mean()
    {
        var tests = NextTests.Of(ACase.Diagnose(ACase.Of(ACase.Point().Gauges(2.6, 23))), 7);
        Assert.NotEmpty(tests);
        Assert.Equal(
            tests.OrderByDescending(test => test.BitsPerCost).Select(test => test.Kind),
            tests.Select(test => test.Kind)
        );
        Assert.All(tests, test => Assert.True(test.Bits >= 0 && test.Minutes > 0));
        Assert.Contains(tests, test => test.Meanings.Any(meaning => meaning.OddsThen > meaning.OddsNow));
    }

    // Practice: a high side that is high for want of air comes down before a fan; the fan is among the tests worth
    // doing.
    [Fact]
    public void A_high_side_far_up_suggests_a_fan_before_the_condenser_among_the_first_five() =>
        Assert.Contains(
            NextTests.Of(ACase.Diagnose(ACase.Of(ACase.Point(rpm: 850).Gauges(2.9, 23))), 7).Take(5),
            test => test.Kind == TestKind.FanOnCondenser
        );

    [Fact]
    public void What_was_read_already_is_not_suggested_again()
    {
        var tests = NextTests.Of(
            ACase.Diagnose(ACase.Of(ACase.Point().Gauges(2.2, 15).At(Measurement.Channel.Vent, 18))),
            7
        );
        Assert.DoesNotContain(tests, test => test.Kind == TestKind.ReadVent);
    }

    [Fact]
    public void The_same_answer_and_seed_suggest_the_same_tests()
    {
        var answer = ACase.Diagnose(ACase.Of(ACase.Point().Gauges(2.6, 19)));
        Assert.Equal(
            NextTests.Of(answer, 3).Select(test => (test.Kind, test.Bits)),
            NextTests.Of(answer, 3).Select(test => (test.Kind, test.Bits))
        );
    }

    // A car that only stood: some of the cars drawn for it do not settle at the point of a running test.
    [Fact]
    public void A_car_that_was_read_at_rest_alone_is_told_what_to_test_next()
    {
        var answer = ACase.Diagnose(ACase.Of() with { Standing = [new(5.2e5, 0.3e5, 298.15, 1.5)] });
        for (var seed = 1UL; seed <= 6; seed++)
            Assert.Contains(NextTests.Of(answer, seed), test => test.Bits > 0);
    }
}
