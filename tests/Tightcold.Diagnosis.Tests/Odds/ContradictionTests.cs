using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Tests.Odds;

public sealed class ContradictionTests
{
    [Fact]
    public void A_low_side_above_the_high_side_is_named_as_hoses_changed_over_and_no_fault_is_sure()
    {
        var answer = ACase.Diagnose(ACase.Of(ACase.Point().Gauges(15, 2)));
        Assert.Equal(ContradictionKind.SidesSwapped, Assert.Single(answer.Contradictions).Kind);
        Assert.True(answer.Leading.Odds < 0.8);
    }

    [Fact]
    public void Less_than_a_perfect_vacuum_is_named_as_impossible()
    {
        var answer = ACase.Diagnose(ACase.Of(ACase.Point().Gauges(-2, 12)));
        Assert.Contains(answer.Contradictions, one =>
            one is { Kind: ContradictionKind.BelowVacuum, Channel: Channel.LowSide }
        );
        Assert.DoesNotContain(answer.Readings, reading => reading.Channel == Channel.LowSide);
        Assert.True(answer.Leading.Odds < 0.8);
    }

    [Fact]
    public void A_vent_colder_than_the_refrigerant_can_be_is_named_and_set_aside()
    {
        var answer = ACase.Diagnose(ACase.Of(ACase.Point().Gauges(3, 16).At(Channel.Vent, -20)));
        Assert.Contains(answer.Contradictions, one =>
            one is { Kind: ContradictionKind.ColderThanRefrigerant, Channel: Channel.Vent }
        );
    }

    [Fact]
    public void A_liquid_line_hotter_than_the_discharge_line_is_named_as_clamps_changed_over() =>
        Assert.Contains(
            ACase
                .Diagnose(
                    ACase.Of(ACase.Point().Gauges(2, 15).At(Channel.LiquidLine, 80).At(Channel.DischargeLine, 45))
                )
                .Contradictions,
            one => one.Kind == ContradictionKind.LiquidAboveDischarge
        );

    [Fact]
    public void Weather_the_model_does_not_know_sets_the_reading_aside()
    {
        var answer = ACase.Diagnose(ACase.Of(ACase.Point(celsius: -10).Gauges(1, 5)));
        Assert.Equal(ContradictionKind.WeatherOutsideModel, Assert.Single(answer.Contradictions).Kind);
        Assert.True(answer.Leading.Odds < 0.8);
    }

    // 28 psig typed as bar: no car runs its low side there, and the pair fits nothing.
    [Fact]
    public void A_gross_misread_never_makes_a_confident_fault()
    {
        var sound = ACase.Point().At(Channel.Vent, 11).At(Channel.LiquidLine, 42).At(Channel.SuctionLine, 8);
        var answer = ACase.Diagnose(ACase.Of(sound.Gauges(1.9, 2.4)));
        Assert.True(
            answer.Leading.Odds < 0.8
                || answer.Leading.Hypothesis.IsNoneOfThese
                || answer.Leading.Hypothesis.IsNothingWrong
        );
        Assert.True(answer.Fit < 0.05);
        Assert.Contains(answer.Readings, reading => reading is { Channel: Channel.HighSide, MisreadOdds: > 0.5 });
    }
}
