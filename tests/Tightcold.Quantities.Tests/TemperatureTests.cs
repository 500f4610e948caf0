using CsCheck;

namespace Tightcold.Quantities.Tests;

public sealed class TemperatureTests
{
    // The SI brochure: t/°C = T/K - 273.15; ITS-90: water's triple point at 273.16 K, tin freezes at 505.078 K, 231.928
    // °C.
    [Theory]
    [InlineData(0, 273.15)]
    [InlineData(0.01, 273.16)]
    [InlineData(100, 373.15)]
    [InlineData(231.928, 505.078)]
    [InlineData(-273.15, 0)]
    public void Celsius_and_kelvin_stand_apart_by_definition(double celsius, double kelvins)
    {
        Assert.Equal(kelvins, Temperature.FromCelsius(celsius).Kelvins, 1e-12);
        Assert.Equal(celsius, Temperature.FromKelvins(kelvins).Celsius, 1e-12);
    }

    [Fact]
    public void A_difference_is_the_same_on_both_scales_and_turns_with_the_order() =>
        Gen.Select(Gen.Double[-60, 200], Gen.Double[-60, 200])
            .Sample(
                (warm, cold) =>
                {
                    Temperature a = Temperature.FromCelsius(warm),
                        b = Temperature.FromCelsius(cold);
                    Assert.Equal(warm - cold, (a - b).Kelvins, 1e-11);
                    Assert.Equal((a - b).Kelvins, -(b - a).Kelvins);
                    Assert.Equal(a - b, a.Subtract(b));
                }
            );

    [Fact]
    public void A_difference_may_be_below_zero_and_a_temperature_may_not()
    {
        Assert.Equal(-5, TemperatureDifference.FromKelvins(-5).Kelvins);
        Assert.Throws<ArgumentOutOfRangeException>(() => Temperature.FromKelvins(-5));
        Assert.Throws<ArgumentOutOfRangeException>(() => Temperature.FromCelsius(-273.16));
    }

    [Fact]
    public void A_temperature_is_never_taken_for_a_difference()
    {
        var superheat = Measure.Of(TemperatureDifference.FromKelvins(5));
        Assert.Throws<InvalidOperationException>(() => superheat.As<Temperature>());
        Assert.NotEqual(Measure.Kelvins(278.15), Measure.AbsoluteTemperature(278.15));
    }

    // A year of 365.25 days has 31 557 600 s (Julian year of the astronomers): 1 kg/s is 3.155 76e10 g/yr.
    [Fact]
    public void Grams_a_year_are_kilograms_a_second()
    {
        Assert.Equal(3.15576e10, LeakRate.FromKilogramsPerSecond(1).GramsPerYear, 1e-3);
        Assert.Equal(1 / 3.15576e10, LeakRate.FromGramsPerYear(1).KilogramsPerSecond, 1e-24);
        Gen.Double[0, 1e6].Sample(grams => Assert.Equal(grams, LeakRate.FromGramsPerYear(grams).GramsPerYear, 1e-9));
    }
}
