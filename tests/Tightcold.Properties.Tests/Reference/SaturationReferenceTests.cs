namespace Tightcold.Properties.Tests.Reference;

public sealed class SaturationReferenceTests
{
    // What the tables must show of us; they carry 12 digits themselves.
    private const double Tolerance = 1e-9;

    // What is said of the series, which are not solved.
    private const double SeriesTolerance = 5e-9;

    public static TheoryData<string> Fluids => ["R134a", "R1234yf", "R152a", "R744", "R12", "Water"];

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Saturation_at_every_tabled_temperature_matches_the_reference_library_within_1e9(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var table = ReferenceTable.Open($"saturation_{name}.csv");
        var deviations = new Deviations();
        foreach (var row in table.Rows)
        {
            var state = fluid.SaturationAtTemperature(table.Number(row, "temperature_k"));
            var where = table.Text(row, "temperature_k");
            deviations.Relative("pressure", state.PressurePa, table.Number(row, "pressure_pa"), Tolerance, where);
            deviations.Relative(
                "pressure alone",
                fluid.SaturationPressurePa(table.Number(row, "temperature_k")),
                table.Number(row, "pressure_pa"),
                SeriesTolerance,
                where
            );
            deviations.Relative(
                "liquid density",
                state.LiquidDensityKgPerM3,
                table.Number(row, "density_liquid_kg_per_m3"),
                Tolerance,
                where
            );
            deviations.Relative(
                "vapour density",
                state.VapourDensityKgPerM3,
                table.Number(row, "density_vapor_kg_per_m3"),
                Tolerance,
                where
            );
            deviations.Relative(
                "liquid enthalpy",
                state.LiquidEnthalpyJPerKg,
                table.Number(row, "enthalpy_liquid_j_per_kg"),
                Tolerance,
                where
            );
            deviations.Relative(
                "vapour enthalpy",
                state.VapourEnthalpyJPerKg,
                table.Number(row, "enthalpy_vapor_j_per_kg"),
                Tolerance,
                where
            );
            deviations.Relative(
                "liquid entropy",
                state.LiquidEntropyJPerKgK,
                table.Number(row, "entropy_liquid_j_per_kg_k"),
                Tolerance,
                where
            );
            deviations.Relative(
                "vapour entropy",
                state.VapourEntropyJPerKgK,
                table.Number(row, "entropy_vapor_j_per_kg_k"),
                Tolerance,
                where
            );
            deviations.Relative(
                "surface tension",
                fluid.SurfaceTensionNPerM(table.Number(row, "temperature_k")) ?? 0,
                table.Number(row, "surface_tension_n_per_m"),
                Tolerance,
                where
            );
        }

        deviations.AssertNone(9 * 200);
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Saturation_at_every_tabled_pressure_gives_back_the_temperature_within_1e9(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var table = ReferenceTable.Open($"saturation_{name}.csv");
        var deviations = new Deviations();
        foreach (var row in table.Rows)
        {
            var state = fluid.SaturationAtPressure(table.Number(row, "pressure_pa"));
            var where = table.Text(row, "pressure_pa");
            deviations.Relative(
                "temperature",
                state.TemperatureK,
                table.Number(row, "temperature_k"),
                Tolerance,
                where
            );
            deviations.Relative(
                "vapour enthalpy",
                state.VapourEnthalpyJPerKg,
                table.Number(row, "enthalpy_vapor_j_per_kg"),
                Tolerance,
                where
            );
        }

        deviations.AssertNone(2 * 200);
    }
}
