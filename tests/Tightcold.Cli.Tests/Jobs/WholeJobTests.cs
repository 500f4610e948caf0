using System.Text.Json.Nodes;

namespace Tightcold.Cli.Tests.Jobs;

/// <summary>Jobs from start to end through the command line and the real data file.</summary>
public sealed class WholeJobTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    [Fact]
    public async Task A_job_is_written_down_corrected_and_shown()
    {
        await desk.OpenJobAsync();
        var saved = await desk.JsonAsync(
            "job",
            "add",
            "1",
            "standing-reading",
            "low-side=68 psig",
            "ambient-temperature=77 F",
            "--who",
            "Ada"
        );
        var id = saved["saved"]!["id"]!.ToString();
        var corrected = await desk.JsonAsync(
            "job",
            "correct",
            "1",
            id,
            "low-side=86 psig",
            "--reason",
            "digits swapped"
        );

        Assert.Equal(id, corrected["saved"]!["supersedes"]!.ToString());
        Assert.Equal("77 F", corrected["saved"]!["fields"]!["ambient-temperature"]!["typed"]!.ToString());
        var shown = await desk.DoneAsync("job", "show", "1");
        Assert.Contains("68 psig", shown, StringComparison.Ordinal);
        Assert.Contains("struck, counts no more", shown, StringComparison.Ordinal);
        Assert.Contains("digits swapped", shown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Numbers_are_shown_in_the_units_a_person_chose_once()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("job", "add", "1", "standing-reading", "low-side=4.7 bar", "ambient-temperature=25 °C");
        Assert.Contains("low-side: 4.7 bar, ", await desk.DoneAsync("job", "show", "1"), StringComparison.Ordinal);
        Assert.Contains(
            "4.7 bar (68 psig)",
            await desk.DoneAsync("job", "show", "1", "--units", "us"),
            StringComparison.Ordinal
        );
        Assert.Contains("4.7 bar (68 psig)", await desk.DoneAsync("job", "show", "1"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_demo_job_runs_to_its_card_and_again_without_doubling()
    {
        var first = await desk.JsonAsync("demo", "--to", desk.File("card.html"));
        var steps = first["findings"]!.AsArray().Select(finding => finding!["step"]!.ToString()).ToList();
        Assert.Equal(
            [
                "complaint-and-weather",
                "standing-pressure",
                "running-pressures",
                "what-is-wrong",
                "leak-search",
                "recover",
                "mend",
                "pump-down",
                "hold",
                "weigh-in",
                "prove-cold",
                "ledger",
            ],
            steps
        );
        Assert.Contains(
            "<html",
            await File.ReadAllTextAsync(desk.File("card.html"), TestContext.Current.CancellationToken),
            StringComparison.OrdinalIgnoreCase
        );

        var number = first["job"]!.ToString();
        var before = await desk.DoneAsync("job", "export", number);
        await desk.DoneAsync("demo", "--to", desk.File("card.html"));
        Assert.Equal(before, await desk.DoneAsync("job", "export", number));
        Assert.Single((await desk.JsonAsync("job", "list"))["jobs"]!.AsArray());
    }

    [Fact]
    public async Task The_demo_leaves_a_persons_own_kit_alone()
    {
        await desk.OpenJobAsync();
        var kit = await desk.DoneAsync("kit", "show", "--json");
        await desk.DoneAsync("demo", "--to", desk.File("card.html"));
        Assert.Equal(kit, await desk.DoneAsync("kit", "show", "--json"));
    }

    [Fact]
    public async Task A_job_replayed_on_another_machine_gives_the_same_journal_and_the_same_findings_bit_for_bit()
    {
        await desk.DoneAsync("demo", "--to", desk.File("card.html"));
        await desk.DoneAsync("job", "export", "1", "--to", desk.File("job.json"));
        using var other = new Desk();
        await other.OpenJobAsync();
        var number = (await other.JsonAsync("job", "import", desk.File("job.json")))["jobs"]![0]!["number"]!.ToString();

        Assert.Equal("2", number);
        Assert.Equal(
            (await desk.JsonAsync("job", "findings", "1"))["findings"]!.ToJsonString(),
            (await other.JsonAsync("job", "findings", number))["findings"]!.ToJsonString()
        );
        var there = JsonNode.Parse(await other.DoneAsync("job", "export", number))!;
        var here = JsonNode.Parse(await desk.DoneAsync("job", "export", "1"))!;
        Assert.Equal(here["entries"]!.ToJsonString(), there["entries"]!.ToJsonString());
        Assert.Equal(here["kits"]!.ToJsonString(), there["kits"]!.ToJsonString());
    }

    [Fact]
    public async Task A_note_changes_no_finding()
    {
        await desk.DoneAsync("demo", "--to", desk.File("card.html"));
        desk.SetClock(new DateTimeOffset(2031, 7, 18, 20, 0, 0, TimeSpan.Zero));
        var before = await desk.DoneAsync("job", "findings", "1", "--json");
        await desk.DoneAsync("job", "add", "1", "note", "text=tea", "--at", "2026-07-18 08:05");
        Assert.Equal(before, await desk.DoneAsync("job", "findings", "1", "--json"));
    }

    [Fact]
    public async Task A_reading_that_was_struck_leaves_no_trace_in_the_findings()
    {
        await desk.DoneAsync("demo", "--to", desk.File("card.html"));
        desk.SetClock(new DateTimeOffset(2031, 7, 18, 20, 0, 0, TimeSpan.Zero));
        var before = await desk.DoneAsync("job", "findings", "1", "--json");
        var saved = await desk.JsonAsync(
            "job",
            "add",
            "1",
            "vent-reading",
            "vent-temperature=21 C",
            "ambient-temperature=30 C",
            "air-source=fresh"
        );
        Assert.NotEqual(before, await desk.DoneAsync("job", "findings", "1", "--json"));
        await desk.DoneAsync("job", "strike", "1", saved["saved"]!["id"]!.ToString(), "--reason", "another car");
        Assert.Equal(before, await desk.DoneAsync("job", "findings", "1", "--json"));
    }

    [Fact]
    public async Task Findings_name_verdict_numbers_basis_cautions_and_next()
    {
        await desk.DoneAsync("demo", "--to", desk.File("card.html"));
        var text = await desk.DoneAsync("job", "findings", "1");
        foreach (var part in new[] { "rests on:", "assumed:", "caution:", "90 %" })
            Assert.Contains(part, text, StringComparison.Ordinal);
        // A job with nothing in it still says what it lacks.
        await desk.OpenJobAsync();
        text = await desk.DoneAsync("job", "findings", "2");
        foreach (var part in new[] { "missing:", "next (" })
            Assert.Contains(part, text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_command_answers_a_machine_in_json()
    {
        await desk.OpenJobAsync();
        foreach (
            var command in new[]
            {
                "car list",
                "kit show",
                "job list",
                "job show 1",
                "job kinds",
                "job findings 1",
                "job export 1",
            }
        )
            Assert.NotNull(JsonNode.Parse(await desk.DoneAsync([.. command.Split(' '), "--json"])));
        Assert.NotNull(
            (await desk.JsonAsync("car", "show", "blue estate", "model-year=2012"))["car"]!["fields"]!["model-year"]
        );
        Assert.NotNull((await desk.JsonAsync("kit", "set", "altitude=300 m"))["kit"]);
        Assert.NotNull((await desk.JsonAsync("job", "print", "1", "--to", desk.File("card.html")))["card"]);
    }
}
