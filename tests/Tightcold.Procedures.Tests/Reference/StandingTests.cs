using Tightcold.Procedures.Standing;
using Tightcold.Properties;

namespace Tightcold.Procedures.Tests.Reference;

public sealed class StandingTests
{
    private static readonly Fluid R134a = FluidCatalog.Get("R134a");

    private static StandingReading At(double celsius, double barGauge) =>
        new(barGauge * 1e5 + 101_325, 8_000, celsius + 273.15, 0.5);

    // A service manual's base-pressure table, engine off, of one 2001 saloon, R-134a, bar gauge: a filled system.
    [Theory]
    [InlineData(15, 3.9)]
    [InlineData(20, 4.7)]
    [InlineData(25, 5.6)]
    [InlineData(30, 6.7)]
    [InlineData(35, 7.8)]
    [InlineData(40, 9.1)]
    [InlineData(45, 10.5)]
    public void A_filled_system_by_the_service_manuals_base_pressure_table_is_found_to_hold_liquid(
        double celsius,
        double barGauge
    )
    {
        var odds = StandingOdds.From(R134a, At(celsius, barGauge));
        Assert.True(odds.LiquidPresent > 0.8, $"{odds}");
        Assert.Equal(1, odds.LiquidPresent + odds.VapourOnly + odds.OtherGas, 12);
    }

    [Fact]
    public void Half_the_saturation_pressure_means_vapour_only() =>
        Assert.True(StandingOdds.From(R134a, At(25, 2.3)).VapourOnly > 0.999);

    [Fact]
    public void Two_bar_above_saturation_means_another_gas() =>
        Assert.True(StandingOdds.From(R134a, At(25, 7.6)).OtherGas > 0.99);

    [Fact]
    public void A_reading_within_its_own_error_of_saturation_decides_nothing_surely()
    {
        var rough = new StandingReading(R134a.SaturationAtTemperature(298.15).PressurePa - 25_000, 30_000, 298.15, 2);
        var odds = StandingOdds.From(R134a, rough);
        Assert.True(odds.LiquidPresent is > 0.2 and < 0.97 && odds.VapourOnly > 0.02, $"{odds}");
    }

    [Fact]
    public void A_second_reading_ten_kelvin_warmer_tells_vapour_from_liquid()
    {
        // 25 °C, 5.3 bar gauge: just below saturation. At 35 °C vapour of the same density stands at about 5.6 bar
        // gauge, liquid at the manual's 7.8.
        var first = new StandingReading(5.3e5 + 101_325, 20_000, 298.15, 1.0);
        var vapour = StandingOdds.From(R134a, first, new(5.6e5 + 101_325, 20_000, 308.15, 1.0));
        var liquid = StandingOdds.From(R134a, first, new(7.8e5 + 101_325, 20_000, 308.15, 1.0));
        Assert.True(vapour.VapourOnly > 0.95, $"{vapour}");
        Assert.True(liquid.LiquidPresent > 0.95, $"{liquid}");
    }

    // A 3 L system at 25 °C keeps saturation until about 97 g of R-134a or 114 g of R-1234yf is left: 3 L times the
    // handbook's vapour densities of 32.35 and 37.89 kg/m³ (tables for Tillner-Roth and Baehr 1994; Lemmon and Akasaka
    // 2022).
    [Theory]
    [InlineData("R134a", 0.0971)]
    [InlineData("R1234yf", 0.1137)]
    public void Liquid_present_gives_only_a_lower_bound_the_vapour_alone(string fluid, double kilograms)
    {
        var reading = new StandingReading(6.6e5, 5_000, 298.15, 0.3);
        Assert.Equal(kilograms, StandingMass.LiquidPresentLeastKg(FluidCatalog.Get(fluid), reading, 3e-3, 0), 3);
    }

    // 25 °C, 4.0 bar absolute, 2.5 L: the virial estimate Z = 0.904 gives 18.2 kg/m³ and 45.5 g without oil; the
    // truncated virial series is good to about 2 % here.
    [Fact]
    public void Vapour_mass_agrees_with_the_virial_estimate()
    {
        var mass = StandingMass.VapourOnly(R134a, new(4.0e5, 8_000, 298.15, 0.5), 2.5e-3, 0.15, 0);
        Assert.InRange(mass.InVapourKg, 0.98 * 0.0455, 1.02 * 0.0455);
        Assert.Equal(0, mass.InOilKg, 12);
        Assert.InRange(mass.SigmaKg / mass.MeanKg, 0.15, 0.16);
    }

    // Flory-Huggins, worked by hand: f = 0.2, χ = 0.45: ln 0.2 + 0.8 + 0.45·0.64 = −0.5214, p/psat = 0.5937.
    [Fact]
    public void Solution_in_oil_agrees_with_the_hand_worked_case() =>
        Assert.Equal(0.2, OilSolution.RefrigerantVolumeFraction(0.5937, 0.45), 4);
}
