using Tightcold.Procedures.Hold;
using Tightcold.Studies.Holds;

namespace Tightcold.Procedures.Tests.Hold;

/// <summary>Holds with a known truth. The truths are invented (docs/physics/hold.md); nothing here was
/// measured.</summary>
public sealed class HoldTests
{
    private static readonly HoldSetting Car = new(2.5e-3, 0.1e-3, 101_325, 293.15, 7);

    /// <summary>Five readings over 40 minutes on a gauge of 1.3 Pa (10 micron) steps.</summary>
    private static HoldReading[] Held(
        Func<double, double> pascals,
        Func<double, double>? kelvins = null,
        double stepPa = 1.3,
        double scatterPa = 0.8,
        int count = 6
    ) =>
        [
            .. Enumerable
                .Range(0, count)
                .Select(i => i * 2400.0 / (count - 1))
                .Select(t => new HoldReading(
                    t,
                    Math.Round(pascals(t) / stepPa) * stepPa,
                    stepPa,
                    scatterPa,
                    kelvins?.Invoke(t)
                )),
        ];

    private static double Still(double seconds) => 293.15 + 0 * seconds;

    [Fact]
    public void A_steady_rise_is_a_leak_of_the_size_that_V_dp_dt_gives()
    {
        var odds = HoldInference.Of(Held(t => 40 + 0.25 * t, Still), Car);
        Assert.True(odds.LeakSeen > 0.9, $"{odds.LeakSeen}");
        Assert.InRange(0.25 * 2.5e-3, odds.LeakLowPaM3PerS, odds.LeakHighPaM3PerS);
    }

    [Fact]
    public void A_rise_that_runs_to_the_vapour_pressure_of_water_is_water()
    {
        // Steam tables: 2339 Pa at 20 °C.
        var odds = HoldInference.Of(Held(t => 40 + 2300 * (1 - Math.Exp(-t / 500)), Still, scatterPa: 20), Car);
        Assert.True(odds.Wet > 0.8, $"{string.Join(' ', odds.Odds)}");
    }

    [Fact]
    public void A_flat_hold_has_no_leak_that_shows() =>
        Assert.True(HoldInference.Of(Held(_ => 40, Still), Car).LeakSeen < 0.15);

    [Fact]
    public void A_hold_in_rising_heat_is_not_called_a_leak()
    {
        // Gas held by oil and walls grows by 5 % a kelvin; the car warms by 8 K.
        var odds = HoldInference.Of(
            Held(t => 150 * Math.Exp(0.05 * 8 * t / 2400), t => 293.15 + 8 * t / 2400, scatterPa: 2),
            Car
        );
        Assert.True(odds.LeakSeen < 0.5, $"{odds.LeakSeen}: {string.Join(' ', odds.Odds)}");
    }

    [Fact]
    public void A_small_leak_in_falling_heat_is_not_called_tight()
    {
        // The same gas shrinks as the car cools by 8 K, and a leak of 50 Pa over the hold fills the place.
        var odds = HoldInference.Of(
            Held(t => 150 * Math.Exp(-0.05 * 8 * t / 2400) + 50 * t / 2400, t => 293.15 - 8 * t / 2400, scatterPa: 2),
            Car
        );
        Assert.True(odds.TightAndDry < 0.6, $"{odds.TightAndDry}: {string.Join(' ', odds.Odds)}");
        Assert.True(odds.LeakSeen > 0.1, $"{odds.LeakSeen}");
    }

    [Fact]
    public void Without_temperatures_a_slow_rise_stays_open_between_heat_and_leak()
    {
        var odds = HoldInference.Of(Held(t => 150 + 30 * t / 2400, null, scatterPa: 2), Car);
        Assert.False(odds.TemperatureKnown);
        Assert.InRange(odds.LeakSeen, 0.05, 0.9);
    }

    [Fact]
    public void Hoses_held_alone_decide_between_car_and_hose()
    {
        var rising = Held(t => 40 + 0.25 * t, Still);
        var tightHoses = HoldInference.Of(rising, Car, Held(_ => 40, Still));
        // All the air comes through the hoses: in their own 0.1 L it rises 25 times as fast.
        var leakyHoses = HoldInference.Of(rising, Car, Held(t => 40 + 6.25 * t, Still, scatterPa: 40));
        Assert.True(tightHoses.HoseShare < 0.02, $"{tightHoses.HoseShare}");
        Assert.True(leakyHoses.HoseShare > 0.9, $"{leakyHoses.HoseShare}");
    }

    [Fact]
    public void The_floor_of_a_dial_is_hundreds_of_times_that_of_an_absolute_gauge()
    {
        var fine = HoldFloor.Of(Held(_ => 40, Still), Car);
        var dial = HoldFloor.Of(Held(_ => 2500, Still, 1700, 350), Car);
        Assert.True(dial > 200 * fine, $"{dial / fine}");
    }

    [Theory]
    [InlineData(1.3, 0.8)]
    [InlineData(13, 2)]
    [InlineData(1700, 350)]
    public void The_floor_lies_within_a_fifth_of_what_simulated_holds_give(double stepPa, double scatterPa)
    {
        var like = Held(_ => 4 * stepPa, Still, stepPa, scatterPa);
        var simulated = HoldStudy.SimulatedFloor(like, Car, 25, 5);
        Assert.InRange(HoldFloor.Of(like, Car) / simulated, 0.8, 1.25);
    }

    [Fact]
    public void The_odds_of_a_leak_mean_what_they_say()
    {
        var study = HoldStudy.Run(120, 11);
        Assert.True(study.CalibrationError < 0.08, $"{study}");
        Assert.True(study.Brier < 0.6 * study.BrierOfPrior, $"{study}");
        Assert.InRange(study.IntervalCoverage, 0.78, 1);
        Assert.True(study.FalseLeak < 0.05, $"{study}");
    }

    [Fact]
    public void Readings_out_of_order_or_not_numbers_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            HoldInference.Of([new(60, 40, 1, 1, 293), new(0, 40, 1, 1, 293)], Car)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            HoldInference.Of([new(0, double.NaN, 1, 1, 293), new(60, 40, 1, 1, 293)], Car)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => HoldInference.Of([new(0, 40, 1, 1, 293)], Car));
    }
}
