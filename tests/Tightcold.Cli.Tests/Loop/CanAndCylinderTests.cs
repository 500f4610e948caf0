namespace Tightcold.Cli.Tests.Loop;

/// <summary>What a can gives and what a cylinder still takes, asked beside any job.</summary>
public sealed class CanAndCylinderTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    [Fact]
    public async Task A_cylinder_holds_what_the_scale_shows_less_its_own_steel()
    {
        string[] asked =
        [
            "cylinder",
            "--refrigerant",
            "R-134a",
            "--water-capacity",
            "47.6 lb",
            "--tare",
            "12 kg",
            "--gross",
        ];
        var answer = await desk.JsonAsync([.. asked, "20 kg"]);
        var most = answer["most-net-kg"]!.GetValue<double>();
        Assert.InRange(most, 17, 23);
        Assert.Equal(most - 8, answer["room-kg"]!.GetValue<double>(), 1e-9);
        Assert.Equal(most + 12, answer["most-gross-kg"]!.GetValue<double>(), 1e-9);
        Assert.False(answer["overfilled"]!.GetValue<bool>());
        Assert.True((await desk.JsonAsync([.. asked, "40 kg"]))["overfilled"]!.GetValue<bool>());
        Assert.Contains("It holds 8", await desk.DoneAsync([.. asked, "20 kg"]), StringComparison.Ordinal);
    }

    /// <summary>A gauge shows how far it stands above the air. At the freezing point an R-134a can stands at 2.9 bar:
    /// below 2 bar on the gauge at the coast, above it on a pass.</summary>
    [Fact]
    public async Task A_cold_can_gives_on_a_pass_what_at_the_coast_the_car_would_give_to_it()
    {
        string[] asked = ["charge", "can", "--net", "300 g", "--air", "0 °C", "--low-side", "2 bar"];
        var coast = (await desk.JsonAsync(asked))["middle"]!;
        var pass = (await desk.JsonAsync([.. asked, "--barometer", "70 kPa"]))["middle"]!;
        Assert.Equal("backflow", coast["end"]!.GetValue<string>());
        Assert.NotEqual("backflow", pass["end"]!.GetValue<string>());
        Assert.True(pass["given-kg"]!.GetValue<double>() > 0);
    }
}
