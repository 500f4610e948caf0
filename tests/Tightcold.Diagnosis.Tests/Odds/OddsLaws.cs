using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Studies.Faults;

namespace Tightcold.Diagnosis.Tests.Odds;

public sealed class OddsLaws
{
    [Theory]
    [InlineData(1)]
    [InlineData(10)]
    [InlineData(13)]
    public void Odds_sum_to_one_and_the_same_readings_and_seed_give_the_same_answer_bit_for_bit(int car)
    {
        var evidence = CarLottery.Draw(car).Evidence;
        var first = Diagnoser.Diagnose(evidence, Effort.Quick, 5);
        var again = Diagnoser.Diagnose(evidence, Effort.Quick, 5);
        Assert.Equal(1, first.Beliefs.Sum(belief => belief.Odds), 9);
        Assert.Equal(
            first.Beliefs.Select(belief => (belief.Hypothesis.Key, belief.Odds)),
            again.Beliefs.Select(belief => (belief.Hypothesis.Key, belief.Odds))
        );
        Assert.Equal(first.ChargeKg, again.ChargeKg);
    }

    [Fact]
    public void Instruments_that_know_nothing_leave_the_odds_where_they_were()
    {
        var point = ACase.Point() with
        {
            Readings = [new(Channel.LowSide, 3e5, 1e8), new(Channel.HighSide, 15e5, 1e8)],
        };
        var answer = ACase.Diagnose(ACase.Of(point));
        // "None of these" is judged against a flat density over the scale and wins where an instrument knows nothing:
        // the others keep their proportions.
        var rest = answer.Beliefs.Where(belief => !belief.Hypothesis.IsNoneOfThese).ToArray();
        double odds = rest.Sum(belief => belief.Odds),
            prior = rest.Sum(belief => belief.Hypothesis.Prior);
        foreach (var belief in rest)
            Assert.InRange(
                Math.Abs((belief.Hypothesis.Prior / prior) - (belief.Odds / odds)),
                0,
                2 * Effort.Full.OddsError
            );
    }

    [Fact]
    public void The_order_of_readings_changes_the_odds_by_less_than_their_error()
    {
        var one = ACase.Point(rpm: 850).Gauges(2.6, 19).At(Channel.Vent, 15);
        var two = ACase.Point(rpm: 2000).Gauges(1.9, 21);
        var forward = ACase.Diagnose(ACase.Of(one, two));
        var backward = ACase.Diagnose(ACase.Of(two, one));
        foreach (var belief in forward.Beliefs)
            Assert.InRange(Math.Abs(belief.Odds - backward.OddsOf(belief.Hypothesis.Key)), 0, 0.12);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_reading_that_is_no_number_is_refused_by_name(double value)
    {
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() =>
            ACase.Diagnose(ACase.Of(ACase.Point() with { Readings = [new(Channel.HighSide, value, 1e4)] }))
        );
        Assert.Contains("HighSide", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_weighed_charge_narrows_the_charge_to_what_the_scale_says()
    {
        var evidence = ACase.Of(ACase.Point().Gauges(2.0, 15));
        var before = ACase.Diagnose(evidence).ChargeKg;
        var after = ACase.Diagnose(evidence with { Weighed = new(0.41, 0.02) }).ChargeKg;
        Assert.InRange(0.41, after.Low, after.High);
        Assert.True(after.High - after.Low < 0.5 * (before.High - before.Low));
    }

    [Fact]
    public void Where_a_receiver_hides_the_charge_a_normal_car_gets_a_wide_interval_and_never_a_point()
    {
        var charge = ACase.Diagnose(ACase.Of(ACase.Point().Gauges(1.9, 14.5).At(Channel.Vent, 11))).ChargeKg;
        Assert.True(charge.High - charge.Low > 0.25 * 0.55);
    }
}
