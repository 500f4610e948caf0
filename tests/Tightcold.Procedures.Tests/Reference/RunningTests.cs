using Tightcold.Procedures.Running;
using Tightcold.Properties;

namespace Tightcold.Procedures.Tests.Reference;

public sealed class RunningTests
{
    private static double SaturationK(double kiloPascalGauge) =>
        FluidCatalog.Get("R134a").SaturationAtPressure(kiloPascalGauge * 1e3 + 101_325).TemperatureK;

    // Published test table of one 2010 car's service manual, R-134a, idle: kPa gauge, low and high, at its four
    // temperatures.
    [Theory]
    [InlineData(25, 190, 1340)]
    [InlineData(30, 218, 1445)]
    [InlineData(35, 255, 1660)]
    [InlineData(40, 325, 2080)]
    public void The_service_manuals_middle_values_lie_in_the_expected_band(
        double celsius,
        double lowKpa,
        double highKpa
    )
    {
        var band = ExpectedBand.At(celsius + 273.15, variableCompressor: false)!.Value;
        Assert.InRange(SaturationK(lowKpa), band.LowFromK, band.LowToK);
        Assert.InRange(SaturationK(highKpa), band.HighFromK, band.HighToK);
    }

    // Common practice, no source: at 90 °F (32.2 °C) about 45 psig low and 225 psig high are called normal, 20 and 120
    // far too low.
    [Fact]
    public void The_trades_normal_pressures_at_90_F_lie_in_the_band_and_starved_ones_below()
    {
        var band = ExpectedBand.At(305.35, variableCompressor: false)!.Value;
        Assert.InRange(SaturationK(45 * 6.894757), band.LowFromK, band.LowToK);
        Assert.InRange(SaturationK(225 * 6.894757), band.HighFromK, band.HighToK);
        Assert.Equal(-1, SideState.Of(SaturationK(15 * 6.894757), 1, band.LowFromK, band.LowToK).Likeliest);
        Assert.Equal(-1, SideState.Of(SaturationK(120 * 6.894757), 1, band.HighFromK, band.HighToK).Likeliest);
    }

    [Theory]
    [InlineData(10)]
    [InlineData(50)]
    public void Outside_the_weather_of_both_tables_nothing_is_judged(double celsius) =>
        Assert.Null(ExpectedBand.At(celsius + 273.15, variableCompressor: true));
}
