using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Tests.Odds;

/// <summary>
/// One maker's workshop manual, manual air conditioning, R-134a, table of gauge readings (MPa gauge) with the trouble
/// it names; read at 30 to 35 °C, doors open, full blower, about 1500 turns a minute, as its sister tables state. The
/// middle of each printed range is used.
/// </summary>
public sealed class PublishedPatternTests
{
    // "0.05-0.15 / 0.7-1.0, continuous bubbles, air slightly cold: insufficient refrigerant".
    [Fact]
    public void Both_sides_low_with_bubbles_is_too_little_refrigerant() =>
        First_two_hold(ACase.Point().Gauges(1.0, 8.5) with { Glass = GlassSeen.Bubbles }, Fault.Undercharge);

    // "0.4-0.6 / 0.7-1.0, sides equal soon after switching off: internal leak in the compressor".
    [Fact]
    public void Sides_close_together_is_a_compressor_that_leaks_inside() =>
        First_two_hold(ACase.Point().Gauges(4.5, 9.5), Fault.CompressorWorn);

    // "0.35-0.45 / 2.0-2.5, no bubbles: overcharged, or condenser or its fan not cooling".
    [Fact]
    public void Both_sides_high_without_bubbles_is_overcharge_or_a_condenser_that_does_not_cool() =>
        First_two_hold(
            ACase.Point().Gauges(3.6, 24) with
            {
                Glass = GlassSeen.Clear,
            },
            Fault.Overcharge,
            Fault.CondenserAir
        );

    // "negative / 0.7-1.0: valve frozen shut by moisture" — at that moment it is a closed valve.
    [Fact]
    public void Low_side_in_vacuum_with_frost_at_the_valve_is_a_throttle_that_does_not_pass() =>
        First_two_hold(
            ACase.Point().Gauges(-0.3, 8.5) with
            {
                Frost = FrostSeen.AtThrottle,
            },
            Fault.ValveStuckClosed,
            Fault.MoistureIce,
            Fault.LineRestricted
        );

    // Practice: the trade's teaching table.
    [Fact]
    public void Normal_gauges_with_a_warm_vent_and_a_cold_suction_line_is_the_heater() =>
        First_two_hold(
            ACase.Point().Gauges(2.2, 15).At(Channel.Vent, 24).At(Channel.SuctionLine, 6),
            Fault.BlendDoorLeaks
        );

    // Practice: no difference between the sides means that nothing pumps.
    [Fact]
    public void Equal_sides_with_the_clutch_seen_off_is_a_compressor_that_does_not_turn() =>
        First_two_hold(ACase.Point().Gauges(6.9, 7.0) with { Clutch = ClutchSeen.Off }, Fault.ClutchDead);

    private static void First_two_hold(OperatingPoint point, params Fault[] named)
    {
        var answer = ACase.Diagnose(ACase.Of(point));
        var ranked = ACase.Ranked(answer);
        Assert.True(
            named.Any(fault => ranked.Take(2).Contains(fault.Key)),
            string.Join(", ", ranked.Take(4))
                + string.Concat(
                    answer
                        .Beliefs.Take(4)
                        .Select(belief => FormattableString.Invariant($"; {belief.Hypothesis.Key} {belief.Odds:F2}"))
                )
        );
    }
}
