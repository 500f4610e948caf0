using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Studies.Faults;

namespace Tightcold.Diagnosis.Tests.Odds;

/// <summary>Why a reading was taken, and what no gauge can tell.</summary>
public sealed class ReasonTests
{
    private static readonly Effort Enough = new(40, 40, 5_000, 0.02);

    private static IReadOnlyDictionary<string, double> Odds(DiagnosisEvidence evidence) =>
        CarScore.Marginal(Diagnoser.Diagnose(evidence, Enough, 7));

    [Fact]
    public void A_switch_that_opens_too_late_is_thought_of_as_well_as_one_that_opens_too_early()
    {
        double Offset(double form)
        {
            var point = new double[Coordinate.Count];
            point[Coordinate.Form] = form;
            return FaultPrior.Of([Fault.SwitchMisset], point).Faults.SwitchOffsetPa;
        }
        Assert.True(Offset(-1) > 0);
        Assert.Equal(-Offset(-1), Offset(1), 9);
    }

    [Theory]
    [InlineData(ReadingReason.NotSaid)]
    [InlineData(ReadingReason.BroughtInWarm)]
    [InlineData(ReadingReason.WarmAtIdle)]
    [InlineData(ReadingReason.WarmAfterTenMinutes)]
    [InlineData(ReadingReason.CheckUp)]
    [InlineData(ReadingReason.JustMendedAndWeighed)]
    [InlineData(ReadingReason.CameBackAfterAWeek)]
    public void Odds_before_any_reading_sum_to_one_for_every_reason(ReadingReason reason)
    {
        var set = HypothesisSet.For(ACase.Valve, reason);
        Assert.Equal(1, set.Sum(one => one.Prior), 9);
        Assert.All(set, one => Assert.True(one.Prior > 0));
    }

    [Fact]
    public void Where_nothing_is_said_a_sound_car_is_as_likely_as_all_faults_together()
    {
        var set = HypothesisSet.For(ACase.Valve);
        var sound = set.Single(one => one.IsNothingWrong).Prior;
        Assert.Equal(sound, set.Where(one => !one.Faults.IsEmpty).Sum(one => one.Prior), 1e-9);
    }

    [Fact]
    public void A_prior_that_is_told_is_taken()
    {
        Assert.Equal(
            0.2,
            HypothesisSet.For(ACase.Valve, ReadingReason.CheckUp, 0.2).Single(one => one.IsNothingWrong).Prior,
            9
        );
        var refused = Assert.Throws<ArgumentOutOfRangeException>(() =>
            Odds(ACase.Of(ACase.Point().Gauges(2, 15)) with { SoundBefore = 1.2 })
        );
        Assert.Contains("SoundBefore", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_car_inside_its_bands_with_a_cold_vent_is_called_sound()
    {
        var odds = Odds(ACase.Of(ACase.Point(30).Gauges(1.9, 14.5).At(Channel.Vent, 9)));
        Assert.Equal(Hypothesis.NothingWrong, odds.MaxBy(pair => pair.Value).Key);
        Assert.True(odds[Hypothesis.NothingWrong] > 0.6);
    }

    [Fact]
    public void The_same_readings_of_a_car_brought_in_warm_leave_more_room_for_faults_than_at_a_check_up()
    {
        var read = ACase.Of(ACase.Point(30).Gauges(2.8, 20));
        double Sound(ReadingReason why) => Odds(read with { Why = why })[Hypothesis.NothingWrong];
        Assert.True(Sound(ReadingReason.BroughtInWarm) < Sound(ReadingReason.NotSaid));
        Assert.True(Sound(ReadingReason.NotSaid) < Sound(ReadingReason.CheckUp));
    }

    [Fact]
    public void Warm_at_idle_speaks_for_the_condensers_air_and_warm_after_ten_minutes_for_ice()
    {
        double Prior(ReadingReason why, Fault fault) =>
            HypothesisSet.For(ACase.Valve, why).Single(one => one.Faults is [var only] && only == fault).Prior;
        Assert.True(
            Prior(ReadingReason.WarmAtIdle, Fault.CondenserAir)
                > 2 * Prior(ReadingReason.BroughtInWarm, Fault.CondenserAir)
        );
        Assert.True(
            Prior(ReadingReason.WarmAfterTenMinutes, Fault.MoistureIce)
                > 5 * Prior(ReadingReason.BroughtInWarm, Fault.MoistureIce)
        );
        Assert.True(
            Prior(ReadingReason.JustMendedAndWeighed, Fault.Undercharge)
                < 0.1 * Prior(ReadingReason.BroughtInWarm, Fault.Undercharge)
        );
    }

    /// <summary>Half a charge stands on the receiver's plateau: the gauges call it sound, a scale says what it
    /// is.</summary>
    [Fact]
    public void A_shortage_that_the_receiver_covers_is_sound_to_the_gauges_and_too_little_to_a_scale()
    {
        var read = ACase.Of(ACase.Point(30).Gauges(1.9, 14.5).At(Channel.Vent, 10));
        var gauges = Diagnoser.Diagnose(read, Enough, 7);
        Assert.True(gauges.Leading.Hypothesis.IsNothingWrong);
        Assert.True(gauges.Leading.ChargeShare.Low < 0.75, $"{gauges.Leading.ChargeShare}");
        var weighed = Odds(read with { Weighed = new(0.60 * 0.55, 0.02) });
        Assert.Equal("undercharge", weighed.MaxBy(pair => pair.Value).Key);
    }

    [Fact]
    public void Every_sign_has_odds_that_sum_to_one_over_its_group_for_every_fault()
    {
        foreach (var fault in Fault.All.Cast<Fault?>().Append(null))
        {
            Fault[] faults = fault is { } one ? [one] : [];
            var (_, car) = FaultPrior.Of(faults, new double[Coordinate.Count]);
            foreach (var group in SignGroups.All)
            {
                Assert.Equal(1, group.Sum(sign => SignOdds.Of(sign, faults, car, [], false)), 9);
                Assert.All(group, sign => Assert.InRange(SignOdds.Of(sign, faults, car, [], true), 0.005, 0.995));
            }
        }

        Assert.Equal(Enum.GetValues<Sign>().Order(), SignGroups.All.SelectMany(group => group).Order());
    }
}
