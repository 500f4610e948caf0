using CsCheck;
using Tightcold.Procedures.Evacuation;

namespace Tightcold.Procedures.Tests.Evacuation;

public sealed class EvacuationTests
{
    // Vacuum handbook forms: 135·d⁴·p̄/L and 12.1·d³/L (mbar, cm, L/s); Poiseuille with 18.2 µPa·s gives 134.8.
    [Fact]
    public void Conductances_are_those_of_the_handbooks()
    {
        Assert.InRange(1000 * Conductance.Viscous(0.01, 0.01, 100), 134.7, 135.05);
        // Worked example: D 5 cm, L 100 cm: 15.125 L/s.
        Assert.Equal(15.125, 1000 * Conductance.Molecular(0.05, 1.0), 3);
        // 6.35 mm × 1.5 m at 1 mbar: 0.146 L/s viscous, 0.0207 molecular.
        Assert.Equal(0.146, 1000 * Conductance.Viscous(6.35e-3, 1.5, 100), 3);
        Assert.Equal(0.0207, 1000 * Conductance.Molecular(6.35e-3, 1.5), 4);
    }

    private static EvacuationSetup Wide => new(1.2e-3, 1, 0.05, 0.5, true, false, 2.5e-3, 101_325, 293.15, 0, 0.8, 0);

    // Textbook: t = (V/S)·ln(p₁/p₂) while nothing but the pump limits.
    [Fact]
    public void Through_a_wide_pipe_the_pump_follows_the_logarithm()
    {
        var seconds = 2.5e-3 / 1.2e-3 * Math.Log(101_325 / 1000.0);
        Assert.InRange(EvacuationModel.Run(Wide, [seconds], 0)[0].PressurePa, 950, 1090);
    }

    private static EvacuationSetup Common =>
        new(1.2e-3, 5, 5e-3, 1.8, true, true, 2.5e-3, 101_325, 293.15, 0, 0.8, 120e-6);

    [Fact]
    public void Hoses_and_cores_slow_the_end_as_textbooks_integrate_it()
    {
        // Where the hose rules, C = c·p/2 with c = 2·π·d⁴/(128·µ·L)/4: 1/p₂ − 1/p₁ = c·t/(2·V), no gas, no floor.
        var bare = Common with { OilM3 = 0, UltimatePa = 0, FreeAirM3PerS = 0.1 };
        var c = 2 * Conductance.Viscous(5e-3, 1.8, 1) / 4;
        var at = EvacuationModel.Run(bare, [60, 120], 0);
        var seconds = (1 / at[1].PressurePa - 1 / at[0].PressurePa) * 2 * bare.VolumeM3 / c;
        // The molecular part helps a little on top.
        Assert.InRange(seconds, 60, 75);
    }

    [Fact]
    public void Cores_out_and_both_sides_are_faster()
    {
        double At(EvacuationSetup setup) => EvacuationModel.Run(setup, [900], 1e-4)[0].PressurePa;
        Assert.True(At(Common with { CoresIn = false }) < At(Common));
        Assert.True(At(Common) < At(Common with { BothSides = false }));
    }

    // Steam tables: 2339 Pa at 20 °C, 1228 Pa at 10 °C.
    [Theory]
    [InlineData(293.15, 2339)]
    [InlineData(283.15, 1228)]
    public void With_water_inside_the_pressure_hangs_below_its_vapour_pressure(double partK, double saturationPa)
    {
        var setup = Common with { CoresIn = false, PartTemperatureK = partK };
        var wet = EvacuationModel.Run(setup, [180, 600], 5e-3);
        Assert.InRange(wet[0].PressurePa, 0.15 * saturationPa, saturationPa);
        Assert.True(wet[1].WaterKg > 0);
        Assert.True(EvacuationModel.Run(setup, [600], 0)[0].PressurePa < 0.2 * wet[1].PressurePa);
    }

    [Fact]
    public void Five_grams_of_water_take_the_better_part_of_an_hour_and_a_film_takes_minutes()
    {
        double[] times = [.. Enumerable.Range(1, 240).Select(i => i * 60.0)];
        double Dry(double kilograms) =>
            EvacuationModel
                .Run(Common with { CoresIn = false, PartTemperatureK = 298.15 }, times, kilograms)
                .First(point => point.WaterKg < 1e-6)
                .Seconds;
        Assert.InRange(Dry(5e-3), 1200, 9000);
        Assert.True(Dry(5e-5) < 600);
    }

    [Fact]
    public void More_water_never_dries_sooner_and_pressure_never_falls_below_the_pumps_ultimate() =>
        Gen.Select(Gen.Double[1e-5, 3e-3], Gen.Double[275, 310], Gen.Bool, Gen.Bool)
            .Sample(
                (water, partK, both, cores) =>
                {
                    var setup = Common with { PartTemperatureK = partK, BothSides = both, CoresIn = cores };
                    var little = EvacuationModel.Run(setup, [300, 900], water);
                    var more = EvacuationModel.Run(setup, [300, 900], 2 * water);
                    Assert.True(more[1].WaterKg >= little[1].WaterKg - 1e-12);
                    foreach (var point in little)
                        Assert.True(point.PressurePa >= setup.UltimatePa && double.IsFinite(point.PressurePa));
                },
                iter: 40
            );

    [Fact]
    public void The_time_that_is_enough_is_computed_and_grows_with_water()
    {
        var damp = EvacuationForecast.Of(Common with { WaterKg = 1e-4 }, 3);
        var wet = EvacuationForecast.Of(Common with { WaterKg = 3e-3 }, 3);
        Assert.NotNull(damp.EnoughSeconds);
        Assert.True((wet.EnoughSeconds ?? EvacuationForecast.LongestSeconds) > damp.EnoughSeconds);
        Assert.True(damp.SureSeconds is null || damp.SureSeconds >= damp.EnoughSeconds);
    }

    [Fact]
    public void A_worn_pump_never_gets_there()
    {
        var forecast = EvacuationForecast.Of(Common with { UltimatePa = 400 }, 3);
        Assert.Null(forecast.EnoughSeconds);
    }

    // Trade: 1000 micron at workshop heat; steam and ice tables: 611.7 Pa at 0 °C, 259.9 Pa at −10 °C against 2339 Pa
    // at 20 °C.
    [Fact]
    public void A_cold_part_needs_a_deeper_vacuum_to_be_called_dry()
    {
        Assert.Equal(133.3, Dryness.HeldPa(293.15), 1);
        Assert.Equal(133.3, Dryness.HeldPa(308.15), 1);
        Assert.Equal(133.3 * 611.7 / 2339, Dryness.HeldPa(273.16), 0);
        Assert.Equal(133.3 * 259.9 / 2339, Dryness.HeldPa(263.15), 0);
    }
}
