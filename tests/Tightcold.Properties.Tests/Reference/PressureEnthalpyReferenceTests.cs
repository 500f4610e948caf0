namespace Tightcold.Properties.Tests.Reference;

public sealed class PressureEnthalpyReferenceTests
{
    private const double Tolerance = 1e-9;

    public static TheoryData<string> Fluids => ["R134a", "R1234yf", "R152a", "R744", "R12"];

    [Theory]
    [MemberData(nameof(Fluids))]
    public void States_from_pressure_and_enthalpy_match_the_reference_library_within_1e9(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var table = ReferenceTable.Open($"ph_flash_{name}.csv");
        var deviations = new Deviations();
        foreach (var row in table.Rows)
        {
            var state = fluid.AtPressureEnthalpy(
                table.Number(row, "pressure_pa"),
                table.Number(row, "enthalpy_j_per_kg")
            );
            var where = $"{row[0]} Pa, {row[1]} J/kg";
            deviations.Relative(
                "temperature",
                state.TemperatureK,
                table.Number(row, "temperature_k"),
                Tolerance,
                where
            );
            deviations.Relative(
                "density",
                state.DensityKgPerM3,
                table.Number(row, "density_kg_per_m3"),
                Tolerance,
                where
            );
            deviations.Relative(
                "entropy",
                state.EntropyJPerKgK,
                table.Number(row, "entropy_j_per_kg_k"),
                Tolerance,
                where
            );
            if (table.NumberOrNone(row, "vapor_quality") is { } quality)
                deviations.Relative("quality", state.Quality ?? -1, quality, Tolerance, where);
            else
                Assert.Null(state.Quality);
            Assert.True(
                table.Text(row, "phase") == SinglePhaseReferenceTests.PhaseWord(state.Phase),
                $"{where}: {state.Phase}"
            );
        }

        deviations.AssertNone(
            (3 * 200) + table.Rows.Count(row => table.NumberOrNone(row, "vapor_quality") is not null)
        );
    }
}
