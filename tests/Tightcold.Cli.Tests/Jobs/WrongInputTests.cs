using System.Text.Json.Nodes;
using Microsoft.Data.Sqlite;
using Tightcold.Jobs.Json;
using Tightcold.Storage;

namespace Tightcold.Cli.Tests.Jobs;

/// <summary>Whatever is typed wrong costs one clear sentence and nothing that is recorded.</summary>
public sealed class WrongInputTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    private static readonly string[] Standing = ["job", "add", "1", "standing-reading"];

    [Fact]
    public async Task A_pressure_below_perfect_vacuum()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync("is allowed", [.. Standing, "ambient-temperature=25 C", "low-side=-2 bar"]);
        await desk.RefusedAsync(
            "is allowed",
            "job",
            "add",
            "1",
            "weather",
            "ambient-temperature=25 C",
            "station-pressure=-3 bar abs"
        );
        await desk.RefusedAsync(
            "is allowed",
            "job",
            "add",
            "1",
            "vacuum-reading",
            "absolute-pressure=-1 mbar",
            "pump-valve=open"
        );
    }

    [Fact]
    public async Task More_vacuum_than_the_air_at_this_altitude_allows()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("kit", "set", "altitude=5280 ft");
        await desk.RefusedAsync(
            "below perfect vacuum",
            "job",
            "add",
            "1",
            "vacuum-reading",
            "dial=29.5 inHg",
            "pump-valve=open"
        );
        await desk.DoneAsync("job", "add", "1", "vacuum-reading", "dial=24.5 inHg", "pump-valve=open");
    }

    [Fact]
    public async Task Air_of_300_degrees()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync(
            "ambient-temperature: “300 °C” is not taken: -40.0 to 60.0 °C is allowed",
            [.. Standing, "ambient-temperature=300 °C"]
        );
    }

    [Fact]
    public async Task Words_for_a_number()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync("“rather low”", [.. Standing, "ambient-temperature=25 C", "low-side=rather low"]);
        await desk.RefusedAsync("a plain number", "car", "new", "label=x", "refrigerant=R-134a", "model-year=old");
    }

    [Fact]
    public async Task A_number_without_its_unit()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync(
            "low-side: “68” is not taken: the unit is missing",
            [.. Standing, "ambient-temperature=25 C", "low-side=68"]
        );
    }

    [Fact]
    public async Task A_number_that_could_be_read_in_two_ways()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync("two ways", [.. Standing, "ambient-temperature=25 C", "low-side=1,250 kPa"]);
    }

    [Fact]
    public async Task A_target_charge_of_nothing()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync(
            "label-charge: “0 g” is not taken: 0.05 to 5.00 kg is allowed",
            "car",
            "new",
            "label=x",
            "refrigerant=R-134a",
            "label-charge=0 g"
        );
        await desk.RefusedAsync("label-charge", "car", "show", "blue estate", "label-charge=0 g");
    }

    [Fact]
    public async Task A_can_lighter_than_its_tare()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync(
            "weigh less than its",
            "job",
            "add",
            "1",
            "scale-reading",
            "container=A",
            "gross=100 g"
        );
        await desk.RefusedAsync(
            "weigh less than its",
            "kit",
            "add-container",
            "name=B",
            "kind=can",
            "refrigerant=R-134a",
            "tare=138 g",
            "gross-now=100 g"
        );
    }

    [Fact]
    public async Task A_clock_that_goes_backwards()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("job", "add", "1", "note", "text=first");
        desk.SetClock(Desk.Morning.AddYears(-1));
        await desk.RefusedAsync("went backwards", "job", "add", "1", "note", "text=second");
    }

    [Fact]
    public async Task An_observation_from_the_future()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync(
            "cannot lie after its writing",
            "job",
            "add",
            "1",
            "note",
            "text=x",
            "--at",
            "2031-07-05 09:00"
        );
    }

    [Fact]
    public async Task A_job_file_cut_short()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("job", "add", "1", "note", "text=first");
        var text = await desk.DoneAsync("job", "export", "1");
        await File.WriteAllTextAsync(
            desk.File("cut.json"),
            text[..(text.Length / 2)],
            TestContext.Current.CancellationToken
        );
        await desk.RefusedAsync("cut short", "job", "import", desk.File("cut.json"));
    }

    [Fact]
    public async Task A_journal_from_a_newer_version()
    {
        await desk.OpenJobAsync();
        var file = JsonNode.Parse(await desk.DoneAsync("job", "export", "1"))!;
        file["version"] = JobDocument.Version + 1;
        await File.WriteAllTextAsync(
            desk.File("newer.json"),
            file.ToJsonString(),
            TestContext.Current.CancellationToken
        );
        await desk.RefusedAsync("newer Tightcold", "job", "import", desk.File("newer.json"));
    }

    [Fact]
    public async Task A_file_whose_typed_text_and_value_disagree()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync([.. Standing, "ambient-temperature=25 C", "low-side=68 psig"]);
        var file = JsonNode.Parse(await desk.DoneAsync("job", "export", "1"))!;
        file["entries"]![0]!["fields"]!["low-side"]!["value"] = 68e3;
        // The chain would have told it before; a file without one is an older program's.
        file.AsObject().Remove("chain");
        await File.WriteAllTextAsync(
            desk.File("changed.json"),
            file.ToJsonString(),
            TestContext.Current.CancellationToken
        );
        await desk.RefusedAsync("say different things", "job", "import", desk.File("changed.json"));
    }

    [Fact]
    public async Task A_data_file_from_a_newer_version_is_left_untouched()
    {
        await desk.OpenJobAsync();
        JobStore.Release();
        var path = DataFolder.DataFile(desk.Folder);
        await using (var connection = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            await connection.OpenAsync(TestContext.Current.CancellationToken);
            var command = connection.CreateCommand();
            command.CommandText =
                "INSERT INTO __EFMigrationsHistory VALUES ('29990101000000_Later', '99.0'); PRAGMA wal_checkpoint(TRUNCATE);";
            await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        }
        var before = await File.ReadAllBytesAsync(path, TestContext.Current.CancellationToken);
        await TroubleAsync("newer Tightcold", "job", "list");
        JobStore.Release();
        Assert.Equal(before, await File.ReadAllBytesAsync(path, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_data_file_that_is_none_is_left_untouched()
    {
        var path = DataFolder.DataFile(desk.Folder);
        await File.WriteAllTextAsync(path, new string('x', 5000), TestContext.Current.CancellationToken);
        await TroubleAsync("is no Tightcold data file", "job", "list");
        Assert.Equal(new string('x', 5000), await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_data_folder_that_is_a_file()
    {
        await File.WriteAllTextAsync(desk.File("folder"), "x", TestContext.Current.CancellationToken);
        await TroubleAsync("choose another with --data", "job", "list", "--data", desk.File("folder"));
    }

    [Theory]
    [InlineData("no such field", "job", "add", "1", "note", "text=x", "mood=good")]
    [InlineData("known kinds are", "job", "add", "1", "horoscope")]
    [InlineData("no job has that number", "job", "add", "7", "note", "text=x")]
    [InlineData("name=value", "job", "add", "1", "note", "x")]
    [InlineData("only once", "job", "add", "1", "note", "text=x", "text=y")]
    [InlineData("no car is called so", "job", "new", "red van", "blows warm")]
    [InlineData("no entry of this job", "job", "strike", "1", "abcdef", "--reason", "x")]
    [InlineData("there is no such file", "job", "import", "no-such-file.json")]
    [InlineData("metric or us", "job", "list", "--units", "cubits")]
    [InlineData("--help", "job", "frobnicate")]
    [InlineData("--help", "job", "show", "one")]
    [InlineData("--help", "job", "list", "--colour")]
    [InlineData("a time such as", "job", "add", "1", "note", "text=x", "--at", "noonish")]
    [InlineData("needed here", "job", "add", "1")]
    public async Task A_slip_on_the_command_line(string because, params string[] arguments)
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync(because, arguments);
    }

    [Fact]
    public async Task A_machine_gets_its_refusal_as_json()
    {
        await desk.OpenJobAsync();
        var answer = await desk.RunAsync([.. Standing, "ambient-temperature=25 C", "low-side=68", "--json"]);
        Assert.Equal(1, answer.Code);
        var refused = Assert.Single(JsonNode.Parse(answer.Out)!["refused"]!.AsArray());
        Assert.Equal("low-side", refused!["field"]!.ToString());
        Assert.Equal("68", refused["value"]!.ToString());
    }

    private async Task TroubleAsync(string because, params string[] arguments)
    {
        var answer = await desk.RunAsync(arguments);
        Assert.Equal(2, answer.Code);
        Assert.Contains(because, answer.Trouble, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", answer.Trouble, StringComparison.Ordinal);
    }
}
