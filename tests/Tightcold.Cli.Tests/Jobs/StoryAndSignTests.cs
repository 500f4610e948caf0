using System.Text.Json.Nodes;

namespace Tightcold.Cli.Tests.Jobs;

/// <summary>Why a car is here and what was seen on it, on the real command line: each moves the fault that the trade
/// would name.</summary>
public sealed class StoryAndSignTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    private async Task OpenAsync(params string[] story)
    {
        await desk.DoneAsync(
            "car",
            "new",
            "label=blue estate",
            "refrigerant=R-134a",
            "label-charge=550 g",
            "compressor=fixed",
            "device=expansion valve"
        );
        await desk.DoneAsync(["job", "new", "blue estate", .. story]);
        await desk.DoneAsync("job", "add", "1", "weather", "ambient-temperature=30 °C", "relative-humidity=50 %");
    }

    private Task<string> ReadAsync(string low, string high, params string[] more) =>
        desk.DoneAsync([
            "job",
            "add",
            "1",
            "running-reading",
            $"low-side={low} bar",
            $"high-side={high} bar",
            "engine-speed=850 1/min",
            "blower=full",
            "air-source=fresh",
            .. more,
        ]);

    private async Task<JsonNode> WeighAsync() => (await desk.JsonAsync("diagnose", "1"))["diagnosis"]!;

    private static double Odds(JsonNode answer, string fault)
    {
        var p = answer["explanations"]!
            .AsArray()
            .Where(one => one!["key"]!.ToString().Contains(fault, StringComparison.Ordinal))
            .Sum(one => one!["odds"]!.GetValue<double>());
        return p / (1 - p);
    }

    [Fact]
    public async Task A_story_opens_a_job_and_two_looks_name_the_fan_and_the_finding_tells_how_far_each_speaks()
    {
        await OpenAsync("--told", "works at speed, fails at idle");
        var shown = await desk.DoneAsync("job", "show", "1");
        Assert.Contains("works at speed, fails at idle", shown, StringComparison.Ordinal);
        await ReadAsync("3.4", "23");
        var before = await WeighAsync();
        Assert.Equal("works at speed, fails at idle", before["story"]!.ToString());
        await desk.DoneAsync("job", "add", "1", "sign", "observation=fan stands still");
        await desk.DoneAsync("job", "add", "1", "sign", "observation=belt right, hub turns");
        var after = await WeighAsync();
        Assert.True(Odds(after, "condenser-air") >= 3 * Odds(before, "condenser-air"));
        Assert.Contains(after["explanations"]![0]!["signs"]!.AsArray(), sign =>
            sign!["sentence"]!.ToString().StartsWith("fan stands still speaks for", StringComparison.Ordinal)
        );
        var told = await desk.DoneAsync("job", "findings", "1");
        Assert.Contains(
            "Seen: fan stands still speaks for condenser short of air or dirty",
            told,
            StringComparison.Ordinal
        );
        Assert.Contains("Works at speed, fails at idle, as told", told, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_suggested_look_says_how_it_is_written_down()
    {
        await OpenAsync("blows warm");
        await ReadAsync("6.9", "7.0", "clutch=off");
        var findings = await desk.JsonAsync("job", "findings", "1");
        var next = findings["findings"]!.AsArray().Single(one => one!["step"]!.ToString() == "what-is-wrong")![
            "next"
        ]!.AsArray();
        Assert.Contains(next, one => one!["entry-kind"]?.ToString() == "sign" && one["begins-at"] is not null);
        Assert.Contains(
            "written down with job add 1 sign observation=",
            await desk.DoneAsync("job", "findings", "1"),
            StringComparison.Ordinal
        );
        await desk.DoneAsync("job", "add", "1", "story", "told=brought in warm");
        Assert.Equal("brought in warm", (await WeighAsync())["story"]!.ToString());
    }

    [Fact]
    public async Task What_no_list_knows_is_refused_with_what_is_near_it_and_nothing_is_opened()
    {
        await OpenAsync("blows warm");
        await desk.DoneAsync("kit", "set", "owner=Ada");
        await desk.RefusedAsync(
            "“fan purple” is not taken: one of fan runs, fan runs slow or backwards, fan stands still is allowed",
            "job",
            "add",
            "1",
            "sign",
            "observation=fan purple"
        );
        await desk.RefusedAsync("brought in warm", "job", "new", "blue estate", "--told", "stolen");
        await desk.RefusedAsync("observation", "job", "add", "1", "sign");
        await desk.RefusedAsync("what is wrong, in 1 to 400 characters", "job", "new", "blue estate");
    }

    [Fact]
    public async Task A_whole_job_with_story_and_signs_goes_out_and_comes_in_as_it_was()
    {
        await OpenAsync("--told", "check-up");
        await desk.DoneAsync("job", "add", "1", "sign", "observation=condenser dirty outside");
        var file = await desk.DoneAsync("job", "export", "1");
        using var other = new Desk();
        var answer = await other.RunAsync(["job", "import", "-"], file);
        Assert.Equal(0, answer.Code);
        Assert.Equal(file, await other.DoneAsync("job", "export", "1"));
    }
}
