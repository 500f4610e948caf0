using Tightcold.Loop.Air;
using Tightcold.Properties;

namespace Tightcold.Loop.Tests.Reference;

/// <summary>The inner loop's closed form of moist air against the real-gas formulation of ASHRAE RP-1485 in the
/// properties room.</summary>
public sealed class MoistAirLawTests
{
    [Fact]
    public void Saturated_humidity_ratio_agrees_within_0_6_percent_from_0_to_50_degrees_at_the_sea_and_in_the_mountains()
    {
        foreach (var p in new[] { 70e3, 101325.0 })
        {
            for (var k = 273.66; k < 323.2; k += 4.5)
                Assert.Equal(1, MoistAirLaw.SaturatedRatio(k, p) / HumidAir.SaturationHumidityRatio(k, p), 0.006);
        }
    }

    [Fact]
    public void Enthalpy_agrees_within_1_percent_of_the_span_of_a_coil()
    {
        for (var k = 278.15; k < 320; k += 7)
        {
            var w = 0.6 * HumidAir.SaturationHumidityRatio(k, 101325);
            Assert.Equal(HumidAir.EnthalpyJPerKgDryAir(k, w, 101325), MoistAirLaw.Enthalpy(k, w), 400.0);
        }
    }

    [Fact]
    public void The_slope_of_saturated_enthalpy_is_its_derivative()
    {
        for (var k = 263.15; k < 320; k += 7)
        {
            MoistAirLaw.SaturatedEnthalpy(k, 95e3, out var slope, out _);
            var difference =
                (
                    MoistAirLaw.SaturatedEnthalpy(k + 0.01, 95e3, out _, out _)
                    - MoistAirLaw.SaturatedEnthalpy(k - 0.01, 95e3, out _, out _)
                ) / 0.02;
            Assert.Equal(difference, slope, 1e-5 * slope);
        }
    }
}
