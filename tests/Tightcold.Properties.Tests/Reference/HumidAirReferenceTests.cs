namespace Tightcold.Properties.Tests.Reference;

public sealed class HumidAirReferenceTests
{
    // Measured 2026-11: W 6.4e-8, h 4e-4 J/kg, wet bulb 1.7e-5 K, dew point 3e-6 K, volume 3e-10. The differences are
    // the other library's stopping rules (its enhancement factor stops at 1e-8, its dew point at 1e-5 Pa).
    private const double RatioTolerance = 2e-7;
    private const double EnthalpyToleranceJPerKg = 2e-3;
    private const double WetBulbToleranceK = 1e-4;
    private const double DewPointToleranceK = 1e-5;
    private const double VolumeTolerance = 1e-8;

    [Fact]
    public void Moist_air_matches_the_real_gas_reference_table()
    {
        var table = ReferenceTable.Open("humid_air.csv");
        var deviations = new Deviations();
        foreach (var row in table.Rows)
        {
            var state = HumidAir.FromRelativeHumidity(
                table.Number(row, "temperature_k"),
                table.Number(row, "relative_humidity"),
                table.Number(row, "pressure_pa")
            );
            var where = string.Join(", ", row.Take(3));
            deviations.Relative(
                "humidity ratio",
                state.HumidityRatio,
                table.Number(row, "humidity_ratio_kg_per_kg_dry_air"),
                RatioTolerance,
                where
            );
            deviations.Absolute(
                "enthalpy",
                state.EnthalpyJPerKgDryAir,
                table.Number(row, "enthalpy_j_per_kg_dry_air"),
                EnthalpyToleranceJPerKg,
                where
            );
            deviations.Absolute(
                "wet bulb",
                state.WetBulbK,
                table.Number(row, "wet_bulb_temperature_k"),
                WetBulbToleranceK,
                where
            );
            deviations.Absolute(
                "dew point",
                state.DewPointK ?? 0,
                table.Number(row, "dew_point_temperature_k"),
                DewPointToleranceK,
                where
            );
            deviations.Relative(
                "volume",
                state.VolumeM3PerKgDryAir,
                table.Number(row, "volume_m3_per_kg_dry_air"),
                VolumeTolerance,
                where
            );
        }

        deviations.AssertNone(5 * 200);
    }
}
