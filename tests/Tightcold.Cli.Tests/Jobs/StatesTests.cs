namespace Tightcold.Cli.Tests.Jobs;

/// <summary>States of a circuit on the real command line: what stands on top, and what must not be said.</summary>
public sealed class StatesTests : IDisposable
{
    private const string Standing = "standing-reading|ambient-temperature=25 °C|since-engine-ran=9 h";
    private const string Weather = "weather|ambient-temperature=25 °C|relative-humidity=50 %|altitude=100 m";

    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    private async Task OpenAsync(params string[] entries)
    {
        await desk.DoneAsync(
            "car",
            "new",
            "label=blue estate",
            "refrigerant=R-134a",
            "label-charge=300 g",
            "compressor=variable",
            "device=expansion valve"
        );
        await desk.DoneAsync("kit", "set", "vacuum-gauge=absolute", "leak-tests=nitrogen, soap bubbles");
        await desk.DoneAsync(
            "kit",
            "add-container",
            "name=A",
            "kind=can",
            "refrigerant=R-134a",
            "net-as-sold=500 g",
            "tare=128 g",
            "gross-now=627 g"
        );
        await desk.DoneAsync("job", "new", "blue estate", "blows warm");
        foreach (var entry in entries)
            await WriteAsync(1, entry);
    }

    private async Task WriteAsync(int job, string entry, params string[] more)
    {
        await desk.DoneAsync([
            "job",
            "add",
            job.ToString(System.Globalization.CultureInfo.InvariantCulture),
            .. entry.Split('|'),
            .. more,
        ]);
        desk.Clock.Advance(TimeSpan.FromMinutes(9));
    }

    public static readonly TheoryData<string, string[], string[], string[]> Cases = new()
    {
        {
            "open to air",
            [Weather, Standing + "|low-side=0 bar|high-side=0 bar"],
            ["It came without pressure", "Nothing to recover"],
            ["Run it", "Liquid is present", "Charge in the system"]
        },
        {
            "in vacuum",
            [Weather, Standing + "|low-side=-0.5 bar"],
            ["It came without pressure"],
            ["Run it", "Have it recovered"]
        },
        {
            "changed over",
            [Weather, Standing + "|low-side=15 bar|high-side=2 bar"],
            ["A reading cannot be", "Hoses changed over"],
            ["Vapour only", "Liquid is present"]
        },
        {
            "too high",
            [Weather, Standing + "|low-side=34 bar|high-side=34 bar"],
            ["A reading cannot be"],
            ["another gas is inside"]
        },
        {
            "nitrogen",
            [Weather, "pressure-test|gas=dry nitrogen|pressure=10 bar|gas-temperature=25 °C"],
            ["Nitrogen is inside", "pull a vacuum"],
            ["Draw from A", "Run it"]
        },
        {
            "mended partly",
            [
                Weather,
                "leak-check|spot=condenser|test=soap bubbles|outcome=clear leak",
                "leak-check|spot=evaporator|test=soap bubbles|outcome=clear leak",
                "opened|spot=condenser",
                "part-changed|spot=condenser|part=condenser",
            ],
            ["Still to mend: evaporator"],
            ["Pull it down"]
        },
        {
            "hot vent",
            [
                Weather,
                "vent-reading|vent-temperature=6 °C|ambient-temperature=36 °C|air-source=recirculated|blower=full",
            ],
            ["the cabin air decides whether that is cold"],
            ["Proven cold"]
        },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public async Task The_line_on_top_and_all_findings_speak_of_the_state_that_is(
        string state,
        string[] entries,
        string[] said,
        string[] unsaid
    )
    {
        await OpenAsync(entries);
        var text = await desk.DoneAsync("job", "findings", "1");
        Assert.StartsWith("Now", text, StringComparison.Ordinal);
        Assert.All(said, words =>
            Assert.True(text.Contains(words, StringComparison.Ordinal), $"{state}: “{words}” is not said in\n{text}")
        );
        Assert.All(unsaid, words =>
            Assert.False(text.Contains(words, StringComparison.Ordinal), $"{state}: “{words}” is said in\n{text}")
        );
        // The same line for machines, and above the journal.
        var now = (await desk.JsonAsync("job", "findings", "1"))["now"]!["waits"]!.ToString();
        Assert.Contains(now, text, StringComparison.Ordinal);
        Assert.Contains(now, await desk.DoneAsync("job", "show", "1"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_charge_onto_nitrogen_is_asked_back_once_and_stands_on_the_card()
    {
        await OpenAsync(Weather, "pressure-test|gas=dry nitrogen|pressure=10 bar|gas-temperature=25 °C");
        await desk.RefusedAsync(
            "Nitrogen is inside",
            "job",
            "add",
            "1",
            "container-moved",
            "container=A",
            "action=opened",
            "side=low side"
        );
        await WriteAsync(1, "container-moved|container=A|action=opened|side=low side", "--really");
        Assert.Contains(
            "Refrigerant went in on top of nitrogen",
            await desk.DoneAsync("job", "findings", "1"),
            StringComparison.Ordinal
        );
        await desk.DoneAsync("job", "print", "1", "--to", desk.File("card.html"));
        Assert.Contains(
            "Marked: refrigerant went in on top of nitrogen",
            await File.ReadAllTextAsync(desk.File("card.html"), TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_can_emptied_in_one_job_is_empty_in_the_plan_of_the_next()
    {
        await OpenAsync(
            Weather,
            "pump|action=started",
            "vacuum-reading|absolute-pressure=0.4 mbar|pump-valve=open",
            "scale-reading|container=A|gross=627 g",
            "container-moved|container=A|action=opened|side=low side",
            "scale-reading|container=A|gross=140 g",
            "container-moved|container=A|action=emptied",
            "container-moved|container=A|action=disconnected"
        );
        await desk.DoneAsync("job", "new", "blue estate", "warm again");
        await WriteAsync(2, "pump|action=started");
        await WriteAsync(2, "vacuum-reading|absolute-pressure=0.4 mbar|pump-valve=open");
        var plan = (await desk.JsonAsync("charge", "plan", "2"))["plan"];
        Assert.True(plan is null || plan["short-kg"]!.GetValue<double>() > 0.28, $"{plan}");
    }
}
