namespace Tightcold.Cli.Tests.Words;

/// <summary>Text fits the window: no line beyond its edge, no column of single letters.</summary>
public sealed class WindowTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    [Theory]
    [InlineData(80)]
    [InlineData(40)]
    public async Task Every_command_fits(int width)
    {
        await desk.DoneAsync("demo", "--to", desk.File("card.html"));
        string[][] commands =
        [
            ["--help"],
            ["job"],
            ["job", "add", "--help"],
            ["job", "add", "1", "running-reading", "--help"],
            ["loop", "--help"],
            ["car", "list"],
            ["car", "show", "Grey estate with the dented hatch"],
            ["kit", "show"],
            ["job", "list"],
            ["job", "show", "1"],
            ["job", "findings", "1"],
            ["job", "kinds", "running-reading"],
            ["leaks", "1", "--units", "us"],
            ["evacuate", "1"],
            ["hold", "1"],
            ["charge", "plan", "1"],
            ["charge", "can", "--net", "300 g"],
            ["cylinder", "--refrigerant", "R-134a", "--water-capacity", "47.6 lb"],
            ["oil", "condenser"],
            ["verify", "1"],
            ["ledger"],
            ["places", "new"],
            ["rules", "US-CA"],
            ["fluid", "R134a"],
            ["loop", "ambient=30 C", "--fault", "low-charge:0.5", "--fault", "condenser-fan", "--fault", "air"],
            ["check"],
        ];
        foreach (var command in commands)
        {
            var answer = await desk.RunAsync(command, width: width);
            Assert.True(answer.Code == 0, $"{string.Join(' ', command)}: {answer.Trouble}");
            var lines = answer.Out.Split('\n').Select(line => line.TrimEnd()).ToList();
            // A path or a name of one word may be wider than the window; a line of several words may not.
            Assert.All(lines, line =>
                Assert.True(
                    line.Length <= width || Math.Max(0, line.Trim().IndexOf(' ', StringComparison.Ordinal)) == 0,
                    $"{string.Join(' ', command)} at {width}: {line.Length} columns: {line}"
                )
            );
            for (var i = 0; i + 3 < lines.Count; i++)
                Assert.False(
                    lines.Skip(i).Take(4).All(line => line.Trim().Length is 1 or 2),
                    $"{string.Join(' ', command)} at {width}: letters below each other at line {i + 1}:\n{answer.Out}"
                );
        }
    }

    [Fact]
    public async Task A_table_becomes_lines_where_its_columns_have_no_room()
    {
        await desk.OpenJobAsync();
        var wide = await desk.RunAsync(["job", "list"], width: 80);
        Assert.StartsWith("job  car", wide.Out, StringComparison.Ordinal);
        var narrow = await desk.RunAsync(["job", "list"], width: 24);
        Assert.Equal("1\n  car: blue estate\n  complaint: blows warm\n  state: open\n  last entry: none\n", narrow.Out);
    }
}
