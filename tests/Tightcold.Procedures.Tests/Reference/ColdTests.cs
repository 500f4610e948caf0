using Tightcold.Procedures.Cold;
using Tightcold.Properties;

namespace Tightcold.Procedures.Tests.Reference;

public sealed class ColdTests
{
    private static VentBand Band(double intakeC, double humidity, double ambientC, bool? driving, double? seconds = null, string blower = "full", double? humidityRatio = null) =>
        VentBand.Of(new(intakeC + 273.15, humidityRatio ?? HumidAir.FromRelativeHumidity(intakeC + 273.15, humidity, 101_325).HumidityRatio,
            0.5, ambientC + 273.15, 101_325, blower, driving, seconds));

    // Published test table of one 2010 car's service manual, R-134a, idle, recirculation, full blower: intake air and
    // its humidity → vent. Each printed range must meet the band (middle of the range inside it).
    [Theory]
    [InlineData(20, 0.55, 6.0, 8.0)]
    [InlineData(20, 0.65, 7.1, 9.1)]
    [InlineData(25, 0.55, 8.4, 10.9)]
    [InlineData(25, 0.65, 10.9, 13.4)]
    [InlineData(30, 0.55, 14.5, 17.5)]
    [InlineData(30, 0.65, 17.5, 20.5)]
    public void The_service_manuals_vent_ranges_lie_in_the_band(double intakeC, double humidity, double fromC, double toC)
    {
        var band = Band(intakeC, humidity, intakeC, driving: false);
        Assert.InRange(0.5 * (fromC + toC) + 273.15, band.LowK, band.HighK);
    }

    // Common practice, no source: a mended small car at about 37 °C on full fan blows about 10 °C on fresh air, 4 to
    // 6 °C recirculated once driving; the same car parked in full sun, cabin above 50 °C, minutes after the charge, 19 °C.
    [Fact]
    public void Common_practice_at_37_C_lies_in_the_bands()
    {
        var humidityRatio = HumidAir.FromRelativeHumidity(310.15, 0.20, 101_325).HumidityRatio;
        var fresh = Band(37, 0, 37, driving: true, humidityRatio: humidityRatio);
        Assert.InRange(10 + 273.15, fresh.LowK, fresh.HighK);
        var recirculated = Band(22, 0, 37, driving: true, humidityRatio: 0.0065);
        Assert.InRange(5 + 273.15, recirculated.LowK, recirculated.HighK);
        var parked = Band(52, 0, 37, driving: false, seconds: 240, humidityRatio: humidityRatio);
        Assert.True(parked.OddsHealthy(19 + 273.15, 0.5) > 0.6, $"{parked.OddsHealthy(19 + 273.15, 0.5)}");
    }

    [Fact]
    public void Warm_air_from_the_vent_in_mild_weather_is_not_taken_for_a_healthy_car() =>
        Assert.True(Band(25, 0.5, 25, driving: true).OddsHealthy(20 + 273.15, 0.5) < 0.1);

    [Fact]
    public void Damper_and_hotter_air_never_makes_the_expected_vent_colder()
    {
        var previous = 0.0;
        foreach (var humidity in new[] { 0.2, 0.4, 0.6, 0.8 })
        {
            var band = Band(30, humidity, 30, driving: false);
            Assert.True(band.MedianK >= previous);
            Assert.True(Band(34, humidity, 34, driving: false).MedianK > band.MedianK);
            previous = band.MedianK;
        }
    }
}
