using Tightcold.Procedures.Cold;
using Tightcold.Properties;

namespace Tightcold.Procedures.Tests.Cold;

public sealed class ColdProofTests
{
    private static VentWeather Weather(
        double intakeC,
        double humidity,
        double ambientC,
        bool? driving,
        double? seconds = null,
        bool sun = false
    ) =>
        new(
            intakeC + 273.15,
            HumidAir.FromRelativeHumidity(ambientC + 273.15, humidity, 101_325).HumidityRatio,
            0.5,
            ambientC + 273.15,
            101_325,
            "full",
            driving,
            seconds,
            sun
        );

    private static VentObservation Reading(VentWeather weather, double ventC) =>
        VentObservation.Of(weather, ventC + 273.15, 0.6, CoilCars.Usual);

    // A wide range of weather: a band that is one, warmer with heat and with damp.
    [Fact]
    public void From_20_to_45_C_and_20_to_80_percent_the_band_is_finite_and_warms_with_heat_and_damp()
    {
        foreach (var driving in new[] { true, false })
        {
            for (var celsius = 20; celsius <= 45; celsius += 5)
            {
                foreach (var humidity in new[] { 0.2, 0.5, 0.8 })
                {
                    var band = VentBand.Of(Weather(celsius, humidity, celsius, driving), CoilCars.Usual);
                    Assert.True(band.LowK < band.MedianK && band.MedianK < band.HighK);
                    Assert.InRange(band.LowK, 273.15, celsius + 273.15 + 3);
                    Assert.True(
                        VentBand
                            .Of(Weather(celsius, Math.Min(1, humidity + 0.2), celsius, driving), CoilCars.Usual)
                            .MedianK
                            >= band.MedianK - 1e-9
                    );
                    Assert.True(
                        VentBand.Of(Weather(celsius + 3, humidity, celsius + 3, driving), CoilCars.Usual).MedianK
                            >= band.MedianK - 1e-9
                    );
                    Assert.True(
                        VentBand
                            .Of(Weather(Math.Min(celsius, 24), humidity * 0.5, celsius, driving), CoilCars.Usual)
                            .MedianK
                            <= band.MedianK + 1e-9
                    );
                }
            }
        }
    }

    [Fact]
    public void Two_readings_that_fit_are_surer_than_one_and_a_warm_one_late_is_not_outvoted_by_an_early_one()
    {
        var weather = Weather(30, 0.5, 30, true, 1200);
        var good = VentBand.Of(weather, CoilCars.Usual).MedianK - 273.15;
        var once = ColdProof.Of([Reading(weather, good)]).OddsHealthy;
        Assert.True(ColdProof.Of([Reading(weather, good), Reading(weather, good)]).OddsHealthy > once);
        var warm = ColdProof.Of([Reading(weather, good), Reading(weather, 26), Reading(weather, 26)]);
        Assert.True(warm.OddsHealthy < 0.5);
        Assert.True(warm.Each[0] > 0.6 && warm.Each[1] < 0.1);
    }

    [Fact]
    public void The_share_of_cooling_follows_the_warmth_of_the_vent()
    {
        var weather = Weather(30, 0.5, 30, true, 1200);
        var previous = 2.0;
        foreach (var celsius in new[] { 8.0, 16, 22, 27 })
        {
            var share = ColdProof.Of([Reading(weather, celsius)]);
            Assert.True(share.ShareLow <= share.ShareMedian && share.ShareMedian <= share.ShareHigh);
            Assert.True(share.ShareMedian <= previous);
            previous = share.ShareMedian;
        }
        Assert.True(previous < 0.4);
    }

    // One published car rig (Atik and Aktaş 2011): 40 % less or 20 % more than the best charge costs up to a quarter of
    // the capacity.
    [Theory]
    [InlineData(0.6, 0.25)]
    [InlineData(1.2, 0.25)]
    [InlineData(1.0, 0.0)]
    public void A_wrong_charge_costs_what_the_published_rig_lost(double ratio, double lost) =>
        Assert.Equal(lost, ChargeEffect.MostLost(ratio), 6);

    [Fact]
    public void A_charge_weighed_to_15_g_of_500_explains_hardly_a_kelvin_and_one_guessed_to_a_third_explains_many()
    {
        var band = VentBand.Of(Weather(32, 0.5, 32, false, 900), CoilCars.Usual);
        var weighed = band.WarmerByK(0.97, 1.03);
        var guessed = band.WarmerByK(0.668, 1.332);
        Assert.InRange(weighed, 0, 0.5);
        Assert.True(guessed > 3, $"{guessed}");
    }

    // Frost needs fins below 0 °C and air whose water settles there: 3.8 g/kg at sea level (steam tables: 611 Pa).
    [Fact]
    public void Icing_needs_cold_fins_and_damp_air()
    {
        var damp = Weather(24, 0.5, 28, true, 1500);
        Assert.True(IcingRisk.Of(Reading(damp, 0.5), null).Chance > 0.8);
        Assert.True(IcingRisk.Of(Reading(damp, 12), null).Chance < 0.05);
        Assert.Equal(0, IcingRisk.Of(Reading(Weather(24, 0.05, 28, true, 1500), 0.5), null).Chance);
    }

    [Fact]
    public void A_pull_down_of_four_readings_gives_back_its_end_and_its_time()
    {
        double Vent(double seconds) => 279 + 14 * Math.Exp(-seconds / 300);
        var fit = PullDown.Fit([.. new[] { 60.0, 240, 600, 1200 }.Select(seconds => (seconds, Vent(seconds)))])!.Value;
        Assert.Equal(279, fit.EndK, 0.2);
        Assert.InRange(fit.TimeConstantS, 280, 320);
        Assert.True(fit.Falling);
        Assert.Null(PullDown.Fit([(60, 290), (120, 285)]));
    }

    [Fact]
    public void A_reading_that_is_no_number_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            Reading(Weather(30, 0.5, 30, true), double.NaN) is var observation ? ColdProof.Of([observation]) : null
        );
}
