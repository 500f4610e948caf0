using System.Globalization;
using System.Text;
using Tightcold.App.PropertyTables;
using Tightcold.Properties;

namespace Tightcold.App.Tests.PropertyTables;

public sealed class PropertyTableTests
{
    private static readonly Fluid R134a = FluidCatalog.Get("R134a");

    [Theory]
    [InlineData("temperature_k,pressure_pa", "300,500000")]
    [InlineData("pressure_pa,temperature_k", "500000,300")]
    [InlineData("temperature_c,pressure_bar", "26.85,5")]
    [InlineData("temperature_f,pressure_kpa", "80.33,500")]
    [InlineData("pressure_mpa;temperature_k", "0.5;300")]
    [InlineData("\"temperature_k\",\"pressure_pa\"", "\"300\", 500000 ")]
    [InlineData("note,temperature_k,pressure_pa", "by the way,300,500000")]
    public async Task The_header_names_the_pair_its_order_and_its_units(string header, string row)
    {
        var (lines, summary, _) = await Run(R134a, PropertyLayer.Reference, header, row);
        var state = R134a.AtTemperaturePressure(300, 5e5);
        Assert.Equal(PropertyTableEvaluator.OutputHeader, lines[0]);
        var fields = lines[1].Split(',');
        Assert.Equal(state.DensityKgPerM3, Number(fields[2]), 1e-9 * state.DensityKgPerM3);
        Assert.Equal(state.EnthalpyJPerKg, Number(fields[3]), 1e-9 * state.EnthalpyJPerKg);
        Assert.Equal("", fields[5]);
        Assert.Equal("gas", fields[11]);
        Assert.Equal((1, 0), (summary.Rows, summary.BadRows));
    }

    [Theory]
    [InlineData("temperature_k,density_kg_per_m3", "300,20")]
    [InlineData("pressure_pa,enthalpy_j_per_kg", "500000,420000")]
    [InlineData("pressure_bar,enthalpy_kj_per_kg", "5,420")]
    [InlineData("pressure_pa,entropy_j_per_kg_k", "500000,1750")]
    [InlineData("pressure_pa,entropy_kj_per_kg_k", "500000,1.75")]
    [InlineData("temperature_k,vapor_quality", "300,0.3")]
    [InlineData("pressure_psi,vapour_quality", "100,0.3")]
    public async Task Every_pair_is_evaluated_by_both_layers_alike(string header, string row)
    {
        var (reference, _, _) = await Run(R134a, PropertyLayer.Reference, header, row);
        var (fast, _, _) = await Run(R134a, PropertyLayer.Fast, header, row);
        foreach (var (a, b) in reference[1].Split(',').Zip(fast[1].Split(',')))
        {
            if (double.TryParse(a, CultureInfo.InvariantCulture, out var x))
                Assert.Equal(x, Number(b), 1e-5 * Math.Abs(x));
            else
                Assert.Equal(a, b);
        }
    }

    [Fact]
    public async Task Inside_the_dome_the_columns_without_meaning_are_empty()
    {
        foreach (var layer in Enum.GetValues<PropertyLayer>())
        {
            var (lines, _, _) = await Run(R134a, layer, "pressure_pa,enthalpy_j_per_kg", "500000,300000");
            var fields = lines[1].Split(',');
            Assert.Equal(12, fields.Length);
            Assert.InRange(Number(fields[5]), 0.01, 0.99);
            Assert.All(fields[6..11], field => Assert.Equal("", field));
            Assert.Equal("two_phase", fields[11]);
        }
    }

    [Fact]
    public async Task A_bad_row_is_told_with_its_line_and_does_not_stop_the_others()
    {
        var (lines, summary, problems) = await Run(
            R134a,
            PropertyLayer.Fast,
            "temperature_k,pressure_pa",
            "300,500000\nwarm,500000\n\n300,-1\n300,5,00\n300\nNaN,1e5\n310,600000"
        );
        Assert.Equal((7, 5), (summary.Rows, summary.BadRows));
        Assert.Equal([3, 5, 6, 7, 8], problems.Select(problem => problem.Line));
        Assert.Contains("'warm' is not a number", problems[0].Reason, StringComparison.Ordinal);
        Assert.Contains("pressurePa", problems[1].Reason, StringComparison.Ordinal);
        Assert.Contains("3 fields where the header has 2", problems[2].Reason, StringComparison.Ordinal);
        Assert.Equal(8, lines.Count);
        Assert.Equal(",,,,,,,,,,,error", lines[2]);
        Assert.EndsWith(",gas", lines[7], StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", string.Concat(lines.Skip(1)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_decimal_comma_is_refused_and_never_misread()
    {
        var (_, summary, problems) = await Run(R134a, PropertyLayer.Reference, "temperature_k;pressure_bar", "300;2,5");
        Assert.Equal(1, summary.BadRows);
        Assert.Contains("'2,5' is not a number", problems[0].Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("warmth,pressure_pa")]
    [InlineData("enthalpy_j_per_kg,entropy_j_per_kg_k")]
    [InlineData("temperature_k,temperature_c")]
    public async Task A_header_without_a_supported_pair_is_refused_with_what_is_supported(string header)
    {
        var refused = await Assert.ThrowsAsync<PropertyTableException>(() =>
            Run(R134a, PropertyLayer.Reference, header, "1,2")
        );
        Assert.NotEmpty(refused.Message);
    }

    [Fact]
    public async Task Points_outside_the_tables_are_answered_by_the_reference_layer()
    {
        var (fast, summary, _) = await Run(
            R134a,
            PropertyLayer.Fast,
            "temperature_k,pressure_pa",
            "200,5e6\n430,1e5\n300,1000"
        );
        var (reference, _, _) = await Run(
            R134a,
            PropertyLayer.Reference,
            "temperature_k,pressure_pa",
            "200,5e6\n430,1e5\n300,1000"
        );
        Assert.Equal(0, summary.BadRows);
        Assert.Equal(reference, fast);
    }

    [Fact]
    public async Task Many_rows_keep_their_order_across_blocks_and_tell_progress()
    {
        const int Count = 20_000;
        var text = new StringBuilder();
        for (var i = 0; i < Count; i++)
            text.Append(CultureInfo.InvariantCulture, $"{250 + (i * 0.005)},100000\r\n");
        var told = new List<long>();
        var (lines, summary, _) = await Run(
            R134a,
            PropertyLayer.Fast,
            "temperature_k,pressure_pa",
            text.ToString(),
            new Told(told)
        );
        Assert.Equal(Count, summary.Rows);
        Assert.Equal(Count + 1, lines.Count);
        for (var i = 0; i < Count; i += 997)
            Assert.Equal(250 + (i * 0.005), Number(lines[i + 1].Split(',')[0]), 1e-9);
        Assert.True(told.Count > 1 && told[^1] == Count);
    }

    [Fact]
    public async Task A_line_longer_than_a_block_is_read_whole()
    {
        var (lines, summary, _) = await Run(
            R134a,
            PropertyLayer.Reference,
            "temperature_k,pressure_pa,note",
            "300,100000," + new string('x', 300_000) + "\n310,100000,short"
        );
        Assert.Equal((2, 0), (summary.Rows, summary.BadRows));
        Assert.StartsWith("310,", lines[2], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Cancelling_stops_between_blocks()
    {
        using var source = new CancellationTokenSource();
        await source.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() =>
            new PropertyTableEvaluator(R134a, PropertyLayer.Fast).RunAsync(
                new StringReader("temperature_k,pressure_pa\n300,1e5\n"),
                new StringWriter(),
                cancellation: source.Token
            )
        );
    }

    [Fact]
    public async Task Numbers_read_back_to_twelve_digits()
    {
        var (lines, _, _) = await Run(
            R134a,
            PropertyLayer.Reference,
            "temperature_k,pressure_pa",
            "300,500000\n260.123456789012,1234567.89012"
        );
        var state = R134a.AtTemperaturePressure(260.123456789012, 1234567.89012);
        var fields = lines[2].Split(',');
        Assert.Equal(260.123456789012, Number(fields[0]), 1e-11);
        Assert.Equal(state.DensityKgPerM3, Number(fields[2]), 1e-12 * state.DensityKgPerM3);
        Assert.Equal(R134a.Transport(state).ViscosityPaS!.Value, Number(fields[9]), 1e-16);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static async Task<(List<string> Lines, PropertyTableSummary Summary, List<RowProblem> Problems)> Run(
        Fluid fluid,
        PropertyLayer layer,
        string header,
        string rows,
        IProgress<long>? progress = null
    )
    {
        using var output = new StringWriter { NewLine = "\n" };
        var problems = new List<RowProblem>();
        using var input = new StringReader(header.Length == 0 ? "" : header + "\n" + rows);
        var summary = await new PropertyTableEvaluator(fluid, layer).RunAsync(
            input,
            output,
            problems.Add,
            progress,
            TestContext.Current.CancellationToken
        );
        return ([.. output.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries)], summary, problems);
    }

    private sealed class Told(List<long> told) : IProgress<long>
    {
        public void Report(long value) => told.Add(value);
    }
}
