using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tests.Tightness;
using Tightcold.Diagnosis.Tightness;
using Tightcold.LeakTests;

namespace Tightcold.Diagnosis.Tests.Leaks;

public sealed class LeakTests
{
    private const double Gram = LeakPrior.GramPerYear;
    private static readonly LeakSetting Sea = LeakSetting.Usual;

    private static LeakTest Test(
        LeakTestKind kind,
        LeakTestOutcome outcome = LeakTestOutcome.Nothing,
        double pressurePa = 665_400,
        int wind = 0,
        bool? dyed = true,
        double time = 0,
        bool oldDye = false
    ) => new(kind, outcome, pressurePa, 120, wind, oldDye, dyed, time);

    private static readonly MassLoss HalfAKilogramInAYear = new(
        -1,
        LeakForecast.Year,
        0,
        0.5,
        0.03,
        LossObservation.YearDuty
    );

    private static TightnessEvidence Car() => TightCase.Car();

    private static TightnessBelief Of(TightnessEvidence evidence) => TightnessInference.Of(evidence);

    private static SpotTightness At(TightnessBelief belief, string name) =>
        belief.Spots.Single(spot => spot.Spot.Name == name);

    // A vacuum maker's handbook: 10 g of R-134a in 10 years are 7.1e-7 Pa·m³/s. Gas law: 1 g/yr is 7.05e-6 mbar·L/s at
    // 0 °C, 7.57e-6 at 20 °C.
    [Theory]
    [InlineData(273.15, 7.05e-6)]
    [InlineData(293.15, 7.57e-6)]
    public void A_gram_a_year_is_the_throughput_that_the_gas_law_gives(
        double temperatureK,
        double millibarLitresPerSecond
    ) => Assert.Equal(millibarLitresPerSecond, 10 * Sea.Throughput(Gram, temperatureK), 8);

    // The viscous law of vacuum textbooks, by hand: (4.41² − 1.01²)/(6.654² − 1.01²) at 340 kPa gauge.
    [Fact]
    public void A_leak_at_half_the_pressure_gives_well_under_half_the_gas() =>
        Assert.Equal((441.3 * 441.3 - 101.3 * 101.3) / (665.4 * 665.4 - 101.3 * 101.3), Sea.Drive(441_300), 3);

    [Fact]
    public void A_nearly_empty_system_leaks_little_and_the_detector_is_called_blind()
    {
        Assert.Equal(
            LeakBlindness.Pressure,
            LeakDetection.Blindness(Test(LeakTestKind.Detector, pressurePa: 150_000), LeakComponent.Joint, Sea)
        );
        Assert.Equal(
            LeakBlindness.None,
            LeakDetection.Blindness(Test(LeakTestKind.Detector), LeakComponent.Joint, Sea)
        );
        Assert.Equal(
            0,
            LeakDetection
                .Seen(Test(LeakTestKind.Detector, pressurePa: 90_000), LeakComponent.Joint, 500 * Gram, Sea)
                .Seen
        );
    }

    [Fact]
    public void A_lamp_on_a_car_that_never_had_dye_sees_nothing()
    {
        Assert.Equal(
            LeakBlindness.NeverDyed,
            LeakDetection.Blindness(Test(LeakTestKind.UvLamp, dyed: false), LeakComponent.Joint, Sea)
        );
        Assert.Equal(
            LeakBlindness.OutOfReach,
            LeakDetection.Blindness(Test(LeakTestKind.UvLamp), LeakComponent.Evaporator, Sea)
        );
    }

    [Fact]
    public void Wind_blinds_the_detector() =>
        Assert.Equal(
            LeakBlindness.Wind,
            LeakDetection.Blindness(Test(LeakTestKind.Detector, wind: 2), LeakComponent.Joint, Sea)
        );

    // SAE J2791 classes are 4, 7 and 14 g/yr: a detector sees 14 g/yr better than not at full pressure, and 2 g/yr
    // hardly.
    [Fact]
    public void The_detector_sees_what_its_class_says()
    {
        Assert.True(LeakDetection.Seen(Test(LeakTestKind.Detector), LeakComponent.Joint, 14 * Gram, Sea).Seen > 0.7);
        Assert.True(LeakDetection.Seen(Test(LeakTestKind.Detector), LeakComponent.Joint, 2 * Gram, Sea).Seen < 0.15);
    }

    [Fact]
    public void The_outcomes_of_every_test_sum_to_one()
    {
        foreach (var kind in LeakTestKind.All)
        foreach (var component in Enum.GetValues<LeakComponent>())
        foreach (var grams in new[] { 0.1, 5, 50, 1000 })
        {
            var sum = Enum.GetValues<LeakTestOutcome>()
                .Sum(outcome => LeakDetection.Likelihood(Test(kind, outcome), component, grams * Gram, Sea));
            Assert.InRange(sum, 0.999, 1.001);
        }
    }

    [Fact]
    public void A_clear_find_lifts_its_spot_and_a_seeing_nothing_lowers_its_own()
    {
        var plain = Of(Car());
        var found = Of(Car().Checked("receiver-drier", Test(LeakTestKind.Detector, LeakTestOutcome.Clear)));
        var clear = Of(Car().Checked("condenser", Test(LeakTestKind.Detector)));
        // One clear cry of a detector, of a car that nobody says has lost: two to one, by the false alarms of
        // detectors.
        Assert.True(At(found, "receiver-drier").Leaking > 2.0 / 3, $"{At(found, "receiver-drier").Leaking}");
        Assert.True(At(clear, "condenser").Leaking < 0.5 * At(plain, "condenser").Leaking);
    }

    [Fact]
    public void The_same_test_twice_counts_less_than_two_different_ones()
    {
        double Odds(params LeakTest[] tests) =>
            At(Of(tests.Aggregate(Car(), (car, test) => car.Checked("condenser", test))), "condenser").Leaking;
        var covered = Test(LeakTestKind.CoverAndWait) with { Seconds = 900 };
        Assert.True(
            Odds(Test(LeakTestKind.Detector), covered) < Odds(Test(LeakTestKind.Detector), Test(LeakTestKind.Detector))
        );
    }

    [Fact]
    public void A_found_leak_too_small_for_what_was_lost_means_that_another_remains()
    {
        // A trace of a soft test at one joint.
        var faint = new[]
        {
            Test(LeakTestKind.CoverAndWait, LeakTestOutcome.Trace),
            Test(LeakTestKind.Detector, LeakTestOutcome.Trace),
            Test(LeakTestKind.Soap),
        }
            .Aggregate(Car(), (car, test) => car.Checked("pressure switch", test))
            .With("pressure switch", spot => spot with { Found = true });
        var lost = Of(faint with { Losses = [HalfAKilogramInAYear] });
        Assert.True(lost.AnotherRemains > 0.8, $"{lost.AnotherRemains}");
        Assert.True(lost.AnotherRemains > Of(faint).AnotherRemains);
        Assert.InRange(0.5 / LossObservation.YearDuty / LeakForecast.Year, lost.Before.P05, lost.Before.P95);
    }

    [Fact]
    public void A_loss_no_greater_than_normal_seeping_makes_every_leak_unlikely()
    {
        var loss = HalfAKilogramInAYear with { LostKg = 0.02, SigmaKg = 0.01 };
        Assert.True(Of(Car() with { Losses = [loss] }).AnotherRemains < 0.35);
    }

    [Fact]
    public void A_repair_with_a_clear_retest_leaves_little_and_without_one_more()
    {
        TightnessBelief Mended(params LeakTest[] retests) =>
            Of(
                retests.Aggregate(
                    Car()
                        .Checked("condenser", Test(LeakTestKind.Soap, LeakTestOutcome.Clear, time: 1))
                        .Mended("condenser", 5),
                    (car, test) => car.Checked("condenser", test)
                )
            );
        var retested = At(Mended(Test(LeakTestKind.Detector, time: 9)), "condenser");
        Assert.True(retested.Leaking < 0.5 * At(Mended(), "condenser").Leaking);
        Assert.True(retested.Leaked > 0.9);
    }

    [Fact]
    public void Residue_at_a_relief_device_may_come_from_one_opening_and_gas_there_decides()
    {
        SpotTightness Relief(params LeakTest[] tests) =>
            At(Of(tests.Aggregate(Car(), (car, test) => car.Checked("relief device", test))), "relief device");
        var dye = Test(LeakTestKind.UvLamp, LeakTestOutcome.Clear);
        var residue = Relief(dye);
        Assert.True(residue.OpenedOnce > 0.3, $"{residue}");
        var silent = Relief(dye, Test(LeakTestKind.CoverAndWait) with { Seconds = 900 });
        var gas = Relief(dye, Test(LeakTestKind.CoverAndWait, LeakTestOutcome.Clear) with { Seconds = 900 });
        Assert.True(silent.Leaking < residue.Leaking, $"{silent.Leaking} {residue.Leaking}");
        Assert.True(residue.Leaking < gas.Leaking, $"{residue.Leaking} {gas.Leaking}");
    }

    [Fact]
    public void The_next_check_goes_where_it_finds_most_for_its_minutes()
    {
        var looks = TightnessMeans.None with { Looks = [Test(LeakTestKind.Detector), Test(LeakTestKind.CoverAndWait)] };
        var ranked = SearchCheck.Rank(Of(Car() with { Means = looks }), 5);
        Assert.Equal("condenser", ranked[0].Spot);
        Assert.Equal(LeakTestKind.Detector, ranked[0].Kind);
        Assert.True(ranked.Zip(ranked.Skip(1)).All(pair => pair.First.FindsPerMinute >= pair.Second.FindsPerMinute));
    }

    [Fact]
    public void The_same_case_gives_the_same_belief_bit_for_bit()
    {
        var lost = Car() with { Losses = [HalfAKilogramInAYear with { DurationSpread = 0.8 }] };
        Assert.Equal(Of(lost).Spots, Of(lost).Spots);
        Assert.Equal(Of(lost).Now, Of(lost).Now);
    }

    [Fact]
    public void A_faster_leak_brings_the_next_check_nearer()
    {
        LeakForecast Of(double grams) => LeakForecast.Of([(grams * Gram, 1)], 0.55, 0.30);
        // By hand: 250 g of room at 100 g/yr and duty 0.7 last 250/70 years.
        Assert.Equal(250.0 / 70, Of(100).Seconds.P50 / LeakForecast.Year, 6);
        Assert.True(Of(400).NextCheckSeconds < Of(100).NextCheckSeconds);
    }

    [Fact]
    public void Topping_up_a_large_leak_costs_more_over_the_years_than_mending_it()
    {
        var belief = Of(
            Car()
                .Checked("condenser", Test(LeakTestKind.Detector, LeakTestOutcome.Clear))
                .With("condenser", spot => spot with { Found = true }) with
            {
                Losses = [new(0, 0.3 * LeakForecast.Year, 0, 0.5, 0.03, LossObservation.YearDuty)],
            }
        );
        var ways = WayCost.All(belief, LeakPrices.Placeholder, 0.55, 0.30);
        Assert.Equal(4, ways.Length);
        var mend = ways.Single(way => way.Way == WayForward.RepairAllFound);
        var top = ways.Single(way => way.Way == WayForward.TopUpAndWatch);
        Assert.True(top.EscapedKg.P50 > 3 * mend.EscapedKg.P50);
        Assert.True(top.StaysCold < mend.StaysCold);
        foreach (var way in ways)
            Assert.True(way.Money.P05 <= way.Money.P50 && way.Money.P50 <= way.Money.P95);
    }

    [Fact]
    public void What_refrigerant_costs_is_paid_on_every_way_that_opens_the_circuit()
    {
        var belief = Of(Car());
        var dear = LeakPrices.Placeholder with { RefrigerantPerKg = LeakPrices.Placeholder.RefrigerantPerKg + 100 };
        double Least(LeakPrices prices) =>
            WayCost.All(belief, prices, 0.55, 0.30).Single(way => way.Way == WayForward.RepairLikeliest).Money.P05;
        Assert.True(Least(dear) - Least(LeakPrices.Placeholder) >= 55 - 1e-9);
    }

    [Fact]
    public void A_year_leaks_less_than_a_year_of_summer_days()
    {
        // 140 g gone in a year that drives as 0.7 of rest at 25 °C is a joint of 200 g a year, not one of 140 g.
        var lost = new LossObservation(0.14, 0.01, LeakForecast.Year, 0, LossObservation.YearDuty, false);
        Assert.Equal(0, lost.LogLikelihood(0.20 / LeakForecast.Year), 9);
        Assert.True(lost.LogLikelihood(0.14 / LeakForecast.Year) < lost.LogLikelihood(0.20 / LeakForecast.Year));
    }
}
