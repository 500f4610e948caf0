using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Tests.Odds;

/// <summary>A car that was read while it was sound is judged by itself first.</summary>
public sealed class EarlierVisitTests
{
    private const double Year = 365.25 * 86_400;

    /// <summary>A front end better than most: on a day of 30 °C it ran two bar below the middle of its kind.</summary>
    private static SoundVisit Mild(double years = 1) =>
        new(
            [
                ACase.Point(30).Gauges(1.7, 11).At(Channel.Vent, 9).At(Channel.LiquidLine, 38),
                ACase.Point(30, 800).Gauges(2.1, 10.2).At(Channel.Vent, 12),
            ],
            new(0.55, 0.02),
            years * Year
        );

    private static DiagnosisEvidence Today(double high, params SoundVisit[] earlier) =>
        ACase.Of(
            ACase.Point(31).Gauges(1.9, high).At(Channel.Vent, 11),
            ACase.Point(31, 800).Gauges(2.3, high - 0.6).At(Channel.Vent, 14)
        ) with
        {
            Earlier = [.. earlier],
        };

    private static double Width(FaultOdds answer, Channel channel) =>
        answer.Readings.First(reading => reading.Channel == channel).Healthy is var band ? band.High - band.Low : 0;

    [Fact]
    public void It_narrows_what_a_sound_one_would_read_and_the_longer_ago_the_less()
    {
        var alone = ACase.Diagnose(Today(11.3));
        var lately = ACase.Diagnose(Today(11.3, Mild()));
        var longAgo = ACase.Diagnose(Today(11.3, Mild(40)));
        Assert.True(Width(lately, Channel.HighSide) < 0.85 * Width(alone, Channel.HighSide));
        Assert.True(Width(lately, Channel.HighSide) < Width(longAgo, Channel.HighSide));
        Assert.True(Width(lately, Channel.LowSide) < Width(alone, Channel.LowSide));
    }

    [Fact]
    public void The_high_side_of_a_sound_car_of_another_make_is_a_fault_in_this_one()
    {
        // 15 bar at 31 °C lie amid what makers print; this car ran 11 at nearly the same air.
        var (alone, remembered) = (ACase.Diagnose(Today(15)), ACase.Diagnose(Today(15, Mild())));
        double Outside(FaultOdds answer) => answer.OddsOf("condenser-air") / answer.OddsOf("nothing-wrong");
        Assert.True(
            Outside(remembered) > 3 * Outside(alone),
            $"{Outside(alone):0.000} alone, {Outside(remembered):0.000} remembered"
        );
    }

    [Fact]
    public void A_car_that_reads_as_it_did_is_no_less_sound_for_it()
    {
        var (alone, remembered) = (ACase.Diagnose(Today(11.3)), ACase.Diagnose(Today(11.3, Mild())));
        Assert.True(remembered.OddsOf("nothing-wrong") > alone.OddsOf("nothing-wrong") - 0.02);
    }

    [Fact]
    public void Of_a_circuit_of_unknown_kind_nothing_is_remembered()
    {
        var evidence = Today(13) with { Car = ACase.Valve with { Expansion = null } };
        var (alone, remembered) = (ACase.Diagnose(evidence), ACase.Diagnose(evidence with { Earlier = [Mild()] }));
        Assert.Equal(
            alone.Beliefs.Select(belief => (belief.Hypothesis.Key, belief.Odds)),
            remembered.Beliefs.Select(belief => (belief.Hypothesis.Key, belief.Odds))
        );
    }

    [Fact]
    public void Another_earlier_visit_is_other_evidence()
    {
        Assert.True(Today(13, Mild()).SaysTheSameAs(Today(13, Mild())));
        Assert.False(Today(13, Mild()).SaysTheSameAs(Today(13)));
        Assert.False(Today(13, Mild()).SaysTheSameAs(Today(13, Mild(2))));
        Assert.Throws<ArgumentOutOfRangeException>(() => ACase.Diagnose(Today(13, Mild(0))));
    }
}
