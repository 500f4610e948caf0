namespace Tightcold.Cli.Tests.Jobs;

/// <summary>A car that comes back: what its earlier job left in it, and what its owner remembers, on the real command
/// line.</summary>
public sealed class HistoryTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    private static readonly string[] Reading =
    [
        "running-reading",
        "low-side=1.3 bar",
        "high-side=11 bar",
        "engine-speed=1500 1/min",
        "ambient-temperature=32 °C",
        "vent-temperature=16 °C",
    ];

    private static readonly string Readings = """
        { "car": { "refrigerant": "R-134a", "label-charge": "550 g", "compressor": "fixed", "device": "expansion valve" },
          "entries": [ HISTORY { "kind": "weather", "ambient-temperature": "32 °C", "relative-humidity": "50 %" },
            { "kind": "running-reading", "low-side": "1.3 bar", "high-side": "11 bar", "engine-speed": "1500 1/min", "vent-temperature": "16 °C" } ] }
        """;

    private static double TooLittle(System.Text.Json.Nodes.JsonNode answer) =>
        answer["diagnosis"]!["explanations"]!
            .AsArray()
            .Where(one => one!["key"]!.ToString().Contains("undercharge", StringComparison.Ordinal))
            .Sum(one => one!["odds"]!.GetValue<double>());

    [Fact]
    public async Task What_an_earlier_job_weighed_in_counts_in_the_next()
    {
        await desk.DoneAsync(
            "car",
            "new",
            "label=blue estate",
            "refrigerant=R-134a",
            "label-charge=340 g",
            "compressor=fixed",
            "device=expansion valve"
        );
        await desk.DoneAsync(
            "kit",
            "add-container",
            "name=A",
            "kind=can",
            "refrigerant=R-134a",
            "tare=138 g",
            "gross-now=498 g"
        );
        await desk.DoneAsync("job", "new", "blue estate", "new hose");
        foreach (
            var entry in new[]
            {
                "weather ambient-temperature=25°C",
                "pump action=started",
                "pump action=stopped",
                "container-moved container=A action=opened side=low_side",
                "scale-reading container=A gross=498g",
                "scale-reading container=A gross=158g",
                "container-moved container=A action=disconnected",
            }
        )
            await desk.DoneAsync([
                "job",
                "add",
                "1",
                .. entry.Split(' ').Select(part => part.Replace("low_side", "low side", StringComparison.Ordinal)),
            ]);
        desk.SetClock(Desk.Morning.AddDays(35));
        await desk.DoneAsync("job", "new", "blue estate", "blows warm again");
        await desk.DoneAsync("job", "add", "2", "weather", "ambient-temperature=32 °C", "relative-humidity=50 %");
        await desk.DoneAsync(["job", "add", "2", .. Reading]);
        var answer = await desk.JsonAsync("diagnose", "2", "--quick");
        var history = answer["diagnosis"]!["history"]!;
        Assert.Equal("by-weight 1 false", $"{history["filled"]} {history["job"]} {history["remembered"]}");
        Assert.InRange(history["charge-share"]!["median"]!.GetValue<double>(), 0.9, 1.0);
        Assert.True(
            TooLittle(answer)
                < answer["diagnosis"]!["explanations"]!
                    .AsArray()
                    .Where(one => one!["key"]!.ToString().Contains("undercharge", StringComparison.Ordinal))
                    .Sum(one => one!["odds-without-history"]!.GetValue<double>())
        );
        Assert.Contains(
            "filled by weight a month ago",
            await desk.DoneAsync("diagnose", "2", "--quick"),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "filled by weight a month ago",
            await desk.DoneAsync("job", "findings", "2"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_file_of_readings_may_tell_the_history_and_is_refused_in_words_where_it_cannot_be()
    {
        async Task<Answer> Run(string history) =>
            await desk.RunAsync(
                ["diagnose", "--readings", "-", "--quick", "--json"],
                Readings.Replace("HISTORY", history, StringComparison.Ordinal)
            );
        var without = System.Text.Json.Nodes.JsonNode.Parse((await Run("")).Out)!;
        Assert.Null(without["diagnosis"]!["history"]);
        var with = System.Text.Json.Nodes.JsonNode.Parse(
            (
                await Run(
                    """{ "kind": "earlier-charge", "months-ago": "2", "filled": "topped up", "mass": "200 g" },"""
                )
            ).Out
        )!;
        Assert.True(TooLittle(with) > TooLittle(without));
        Assert.Equal(2, with["diagnosis"]!["history"]!["months-ago"]!.GetValue<double>(), 6);
        foreach (
            var (wrong, field) in new[]
            {
                ("\"filled\": \"topped up\"", "months-ago"),
                ("\"months-ago\": \"-3\", \"filled\": \"topped up\"", "months-ago"),
                ("\"months-ago\": \"2\", \"filled\": \"brimful\"", "filled"),
            }
        )
        {
            var answer = await Run($$"""{ "kind": "earlier-charge", {{wrong}} },""");
            Assert.Equal(1, answer.Code);
            Assert.Contains($"entries[0].{field}", answer.Out, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task An_identifier_that_says_otherwise_stops_the_diagnosis()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync(
            "job",
            "add",
            "1",
            "standing-reading",
            "low-side=5.6 bar",
            "high-side=5.6 bar",
            "ambient-temperature=25 °C",
            "identified=mixed or unknown"
        );
        await desk.DoneAsync(["job", "add", "1", .. Reading]);
        var answer = await desk.JsonAsync("diagnose", "1", "--quick");
        Assert.Null(answer["diagnosis"]);
        Assert.StartsWith("Not R-134a inside", answer["finding"]!["verdict"]!.ToString(), StringComparison.Ordinal);
        Assert.Contains("recovered as contaminated", await desk.DoneAsync("diagnose", "1"), StringComparison.Ordinal);
    }
}
