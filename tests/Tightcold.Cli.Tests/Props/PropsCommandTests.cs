namespace Tightcold.Cli.Tests.Props;

public sealed class PropsCommandTests : IDisposable
{
    private readonly Desk _desk = new();

    public void Dispose() => _desk.Dispose();

    [Fact]
    public async Task A_table_of_states_is_evaluated_and_bad_rows_are_told_with_their_line()
    {
        var (points, result) = (_desk.File("points.csv"), _desk.File("result.csv"));
        await File.WriteAllTextAsync(
            points,
            "temperature_c,pressure_bar\n25,3\nwarm,3\n25,-1\n",
            TestContext.Current.CancellationToken
        );
        var answer = await _desk.RunAsync([
            "props",
            "--fluid",
            "R-134a",
            "--layer",
            "fast",
            "--in",
            points,
            "--out",
            result,
        ]);
        Assert.Equal(1, answer.Code);
        Assert.Contains("line 3: temperature_c: 'warm' is not a number", answer.Trouble, StringComparison.Ordinal);
        Assert.Contains("line 4:", answer.Trouble, StringComparison.Ordinal);
        Assert.Contains("3 rows from temperature_c, pressure_bar for R-134a", answer.Out, StringComparison.Ordinal);
        var lines = await File.ReadAllLinesAsync(result, TestContext.Current.CancellationToken);
        Assert.Equal(4, lines.Length);
        Assert.EndsWith(",gas", lines[1], StringComparison.Ordinal);
        Assert.EndsWith(",error", lines[2], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("R999", "reference", "R134a")]
    [InlineData("R134a", "quick", "reference or fast")]
    public async Task An_unknown_fluid_or_layer_is_refused_with_those_there_are(string fluid, string layer, string told)
    {
        await File.WriteAllTextAsync(_desk.File("a.csv"), "t,p\n", TestContext.Current.CancellationToken);
        var answer = await _desk.RunAsync([
            "props",
            "--fluid",
            fluid,
            "--layer",
            layer,
            "--in",
            _desk.File("a.csv"),
            "--out",
            _desk.File("b.csv"),
        ]);
        Assert.Equal(1, answer.Code);
        Assert.Contains(told, answer.Trouble, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_fluid_prints_its_saturation_table_and_draws_its_diagram()
    {
        var drawing = _desk.File("r134a.svg");
        var shown = await _desk.DoneAsync(
            "fluid",
            "R134a",
            "--svg",
            drawing,
            "--cycle",
            "1:3,405;2:15,445;3:15,260;4:3,260"
        );
        // Published saturation pressure at 0 degC: 2.928 bar (handbook, from memory).
        Assert.Contains("2.928", shown, StringComparison.Ordinal);
        Assert.Contains("4: 3.00 bar abs, 260.0 kJ/kg", shown, StringComparison.Ordinal);
        Assert.Contains(
            "<svg",
            await File.ReadAllTextAsync(drawing, TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        var node = await _desk.JsonAsync("fluid", "R744", "--step", "20");
        Assert.Equal("span1996", (string?)node["equation"]);
        Assert.NotEmpty(node["saturation"]!.AsArray());
        Assert.Contains("No saturation line", await _desk.DoneAsync("fluid", "Nitrogen"), StringComparison.Ordinal);
        Assert.Equal(1, (await _desk.RunAsync(["fluid", "R134a", "--cycle", "1:3"])).Code);
        Assert.Equal(1, (await _desk.RunAsync(["fluid", "R134a", "--step", "0"])).Code);
    }
}
