using CsCheck;

namespace Tightcold.Properties.Tests.Laws;

public sealed class HumidAirLawTests
{
    private static readonly Gen<(double T, double Rh, double P)> Air = Gen.Select(
        Gen.Double[238, 335],
        Gen.Double[0.02, 1],
        Gen.Double[60e3, 106e3]
    );

    [Fact]
    public void Every_pair_that_fixes_a_state_returns_the_same_state() =>
        Air.Sample(
            (t, rh, p) =>
            {
                var air = HumidAir.FromRelativeHumidity(t, rh, p);
                Same(air, HumidAir.FromHumidityRatio(t, air.HumidityRatio, p));
                Same(air, HumidAir.FromEnthalpy(t, air.EnthalpyJPerKgDryAir, p));
                Same(air, HumidAir.FromDewPoint(t, air.DewPointK!.Value, p));
                Same(air, HumidAir.FromWetBulb(t, air.WetBulbK, p));
                var known = new Dictionary<HumidAirQuantity, double>
                {
                    [HumidAirQuantity.DryBulb] = t,
                    [HumidAirQuantity.WetBulb] = air.WetBulbK,
                    [HumidAirQuantity.DewPoint] = air.DewPointK.Value,
                    [HumidAirQuantity.RelativeHumidity] = air.RelativeHumidity,
                    [HumidAirQuantity.HumidityRatio] = air.HumidityRatio,
                    [HumidAirQuantity.Enthalpy] = air.EnthalpyJPerKgDryAir,
                };
                foreach (var (a, va) in known)
                {
                    foreach (var (b, vb) in known)
                    {
                        if (
                            a == b
                            || Says(a, b, HumidAirQuantity.HumidityRatio, HumidAirQuantity.DewPoint)
                            || Says(a, b, HumidAirQuantity.WetBulb, HumidAirQuantity.Enthalpy)
                        )
                            continue;
                        // Wet bulb beside humidity, near saturation or near 0 degC where ice and water both balance,
                        // fixes little.
                        if (air.RelativeHumidity > 0.95 || Math.Abs(air.WetBulbK - 273.16) < 3)
                            continue;
                        Same(air, HumidAir.FromPair(a, va, b, vb, p), 1e-5);
                    }
                }
            },
            iter: 25
        );

    [Fact]
    public void Dew_point_wet_bulb_and_dry_bulb_come_in_that_order() =>
        Air.Sample(
            (t, rh, p) =>
            {
                var air = HumidAir.FromRelativeHumidity(t, rh, p);
                Assert.True(air.DewPointK <= air.WetBulbK + 1e-6);
                Assert.True(air.WetBulbK <= air.TemperatureK + 1e-9);
                Assert.True(air.HumidityRatio <= HumidAir.SaturationHumidityRatio(t, p) * (1 + 1e-9));
            }
        );

    [Fact]
    public void Air_cooled_to_its_dew_point_is_saturated_at_every_pressure_and_about_freezing() =>
        Gen.Select(Gen.Double[225, 345], Gen.Double[0.02, 0.999], Gen.Double[Math.Log(10e3), Math.Log(1e6)], Gen.Bool)
            .Sample(
                (t, rh, logP, aboutFreezing) =>
                {
                    var p = Math.Exp(logP);
                    // Half of them at the corner where the lines of water and ice meet, where a dew point settles
                    // worst.
                    if (aboutFreezing)
                        t = 273.16 + ((t - 285) / 60);
                    if (WaterVapour.SaturationPressurePa(t) > 0.5 * p)
                        return;
                    if (HumidAir.FromRelativeHumidity(t, rh, p) is not { DewPointK: { } dew } air)
                        return;
                    Assert.Equal(1, HumidAir.SaturationHumidityRatio(dew, p) / air.HumidityRatio, 1e-9);
                },
                iter: 5_000
            );

    [Fact]
    public void More_water_raises_enthalpy_and_volume_and_wet_bulb() =>
        Air.Where(air => air.Rh < 0.9)
            .Sample(
                (t, rh, p) =>
                {
                    var dry = HumidAir.FromRelativeHumidity(t, rh, p);
                    var wet = HumidAir.FromRelativeHumidity(t, rh + 0.05, p);
                    Assert.True(
                        wet.EnthalpyJPerKgDryAir > dry.EnthalpyJPerKgDryAir
                            && wet.VolumeM3PerKgDryAir > dry.VolumeM3PerKgDryAir
                    );
                    // Across 0 degC the wick may thaw and the wet bulb jump either way.
                    Assert.True(wet.WetBulbK > dry.WetBulbK || Math.Abs(dry.WetBulbK - 273.16) < 1.5);
                    Assert.Equal(
                        dry.EnthalpyJPerKgDryAir,
                        HumidAir.EnthalpyJPerKgDryAir(t, dry.HumidityRatio, p),
                        1e-6
                    );
                }
            );

    [Fact]
    public void Dry_air_has_no_dew_point_and_the_enthalpy_of_the_air_equation()
    {
        var dry = HumidAir.FromRelativeHumidity(298.15, 0, 101325);
        Assert.Null(dry.DewPointK);
        Assert.Equal(0, dry.HumidityRatio);
        var air = FluidCatalog.Get("Air");
        var rise =
            air.AtTemperaturePressure(318.15, 101325).EnthalpyJPerKg
            - air.AtTemperaturePressure(298.15, 101325).EnthalpyJPerKg;
        var same = HumidAir.FromRelativeHumidity(318.15, 0, 101325).EnthalpyJPerKgDryAir - dry.EnthalpyJPerKgDryAir;
        // The formulation rounds the molar mass of air by 2e-5.
        Assert.Equal(rise, same, 1e-4 * rise);
        Assert.Equal(
            1 / air.AtTemperaturePressure(298.15, 101325).DensityKgPerM3,
            dry.VolumeM3PerKgDryAir,
            5e-5 * dry.VolumeM3PerKgDryAir
        );
    }

    [Fact]
    public void Saturated_air_has_one_temperature_for_all_three_bulbs()
    {
        foreach (var t in (double[])[250, 273.16, 280, 310])
        {
            var air = HumidAir.FromRelativeHumidity(t, 1, 95000);
            Assert.Equal(t, air.WetBulbK, 1e-6);
            Assert.Equal(t, air.DewPointK!.Value, 1e-6);
            Assert.Equal(1, air.RelativeHumidity, 1e-12);
        }
    }

    [Fact]
    public void Hot_air_above_the_boiling_point_is_served()
    {
        var air = HumidAir.FromHumidityRatio(420, 0.05, 101325);
        Assert.True(air.WetBulbK < 373.2 && air.WetBulbK > air.DewPointK);
        Assert.InRange(air.RelativeHumidity, 0.001, 0.05);
        Assert.Throws<FluidRangeException>(() => HumidAir.SaturationHumidityRatio(400, 101325));
    }

    [Fact]
    public void Impossible_moist_air_is_refused()
    {
        foreach (var bad in (double[])[double.NaN, -0.1, 1.01, double.PositiveInfinity])
            Assert.Throws<FluidRangeException>(() => HumidAir.FromRelativeHumidity(300, bad, 101325));
        foreach (var bad in (double[])[double.NaN, 100, 500, double.PositiveInfinity])
        {
            Assert.Throws<FluidRangeException>(() => HumidAir.FromRelativeHumidity(bad, 0.5, 101325));
            Assert.Throws<FluidRangeException>(() => HumidAir.FromDewPoint(300, bad, 101325));
            Assert.Throws<FluidRangeException>(() => HumidAir.FromWetBulb(300, bad, 101325));
        }

        foreach (var bad in (double[])[double.NaN, 0, 5e6, -1])
            Assert.Throws<FluidRangeException>(() => HumidAir.FromRelativeHumidity(300, 0.5, bad));
        foreach (var bad in (double[])[double.NaN, -0.001, 11])
            Assert.Throws<FluidRangeException>(() => HumidAir.FromHumidityRatio(300, bad, 101325));
        Assert.Contains(
            "saturation",
            Assert.Throws<FluidRangeException>(() => HumidAir.FromHumidityRatio(283.15, 0.02, 101325)).Message,
            StringComparison.Ordinal
        );
        Assert.Throws<FluidRangeException>(() => HumidAir.FromEnthalpy(300, double.NaN, 101325));
        Assert.Throws<FluidRangeException>(() => HumidAir.FromEnthalpy(300, -1e5, 101325));
        // A wet bulb below what bone-dry air shows.
        Assert.Throws<FluidRangeException>(() => HumidAir.FromWetBulb(308.15, 280, 101325));
        Assert.Throws<ArgumentException>(() =>
            HumidAir.FromPair(HumidAirQuantity.HumidityRatio, 0.01, HumidAirQuantity.DewPoint, 287, 101325)
        );
        Assert.Throws<ArgumentException>(() =>
            HumidAir.FromPair(HumidAirQuantity.Enthalpy, 5e4, HumidAirQuantity.WetBulb, 290, 101325)
        );
        Assert.Throws<ArgumentException>(() =>
            HumidAir.FromPair(HumidAirQuantity.DryBulb, 300, HumidAirQuantity.DryBulb, 300, 101325)
        );
        Assert.Throws<FluidRangeException>(() =>
            HumidAir.FromPair(HumidAirQuantity.RelativeHumidity, 0.5, HumidAirQuantity.Enthalpy, double.NaN, 101325)
        );
        Assert.Throws<FluidRangeException>(() =>
            HumidAir.FromPair(HumidAirQuantity.RelativeHumidity, 0.5, HumidAirQuantity.Enthalpy, 1e9, 101325)
        );
        Assert.Throws<FluidRangeException>(() =>
            HumidAir.FromPair(HumidAirQuantity.DewPoint, 500, HumidAirQuantity.Enthalpy, 5e4, 101325)
        );
    }

    private static bool Says(HumidAirQuantity a, HumidAirQuantity b, HumidAirQuantity one, HumidAirQuantity other) =>
        (a == one && b == other) || (a == other && b == one);

    private static void Same(in HumidAirState expected, in HumidAirState actual, double tolerance = 1e-7)
    {
        Assert.Equal(expected.TemperatureK, actual.TemperatureK, tolerance * expected.TemperatureK);
        Assert.Equal(expected.HumidityRatio, actual.HumidityRatio, tolerance * Math.Max(expected.HumidityRatio, 1e-3));
        Assert.Equal(expected.RelativeHumidity, actual.RelativeHumidity, 100 * tolerance);
        Assert.Equal(expected.VolumeM3PerKgDryAir, actual.VolumeM3PerKgDryAir, tolerance);
    }
}
