namespace Tightcold.Cli.Tests.Loop;

public sealed class LoopCommandTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    [Fact]
    public async Task A_healthy_and_a_sick_car_stand_side_by_side_in_the_units_asked_for()
    {
        var page = await desk.DoneAsync(
            "loop",
            "ambient=95 F",
            "humidity=50 %",
            "--fault",
            "condenser-fan:0.5",
            "--units",
            "us"
        );
        Assert.Contains("modelled, not measured", page, StringComparison.Ordinal);
        Assert.Contains("condenser air lacking", page, StringComparison.Ordinal);
        Assert.Contains("psig", page, StringComparison.Ordinal);
        var high = (await desk.JsonAsync("loop", "ambient=95 F", "--fault", "condenser-fan:0.5"))["columns"]!
            .AsArray()
            .Select(column =>
                column!["readings"]!.AsArray().Single(reading => reading!["key"]!.GetValue<string>() == "high-side")![
                    "median"
                ]!.GetValue<double>()
            )
            .ToList();
        Assert.True(high[1] > high[0] + 2e5);
    }

    [Fact]
    public async Task A_car_of_the_book_is_used_by_name()
    {
        await desk.DoneAsync(
            "car",
            "new",
            "label=van",
            "refrigerant=R-1234yf",
            "label-charge=520 g",
            "compressor=variable",
            "device=expansion valve"
        );
        var answer = await desk.JsonAsync("loop", "ambient=30 C", "--car", "van");
        Assert.Equal("R1234yf", answer["refrigerant"]!.GetValue<string>());
        Assert.Equal(0.52, answer["label-charge-kg"]!.GetValue<double>(), 1e-9);
    }

    [Fact]
    public async Task Sweep_plot_and_cycle_are_written_to_the_files_asked_for()
    {
        var (csv, plot, svg) = (desk.File("s.csv"), desk.File("s.svg"), desk.File("c.svg"));
        await desk.DoneAsync(
            "loop",
            "ambient=30 C",
            "--sweep",
            "charge",
            "--steps",
            "5",
            "--csv",
            csv,
            "--plot",
            plot,
            "--svg",
            svg
        );
        Assert.Equal(6, (await File.ReadAllLinesAsync(csv, TestContext.Current.CancellationToken)).Length);
        Assert.Contains(
            "polyline",
            await File.ReadAllTextAsync(plot, TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "Pressure-enthalpy",
            await File.ReadAllTextAsync(svg, TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("ambient")]
    [InlineData("ambient=200 C")]
    [InlineData("ambient=30 C", "--fault", "gremlins")]
    [InlineData("ambient=30 C", "--fault", "air:7")]
    [InlineData("ambient=30 C", "--sweep", "moon")]
    [InlineData("ambient=30 C", "--sweep", "ambient", "--from", "-40")]
    [InlineData("ambient=30 C", "--sweep", "rpm", "--from", "NaN")]
    [InlineData("ambient=30 C", "--car", "nobody")]
    public async Task Wrong_input_is_refused_with_a_reason_and_without_an_answer(params string[] arguments)
    {
        var answer = await desk.RunAsync(["loop", .. arguments]);
        Assert.NotEqual(0, answer.Code);
        Assert.NotEqual("", answer.Trouble + answer.Out);
        Assert.DoesNotContain("program itself failed", answer.Trouble, StringComparison.Ordinal);
    }
}
