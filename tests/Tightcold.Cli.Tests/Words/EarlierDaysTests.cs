using System.Text.Json.Nodes;

namespace Tightcold.Cli.Tests.Words;

/// <summary>Jobs and kit of an earlier day, undo, search in notes, all jobs in a file, jobs from a
/// spreadsheet.</summary>
public sealed class EarlierDaysTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_job_is_opened_on_an_earlier_day_with_the_kit_of_that_day()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("kit", "set", "vacuum-gauge=absolute");
        await desk.DoneAsync("kit", "set", "vacuum-gauge=dial", "--from", "2031-05-01");
        var job = (await desk.JsonAsync("job", "new", "blue estate", "warm", "--at", "2031-05-12 10:00"))["job"]!;
        Assert.StartsWith("2031-05-12T10:00", job["opened-at"]!.ToString(), StringComparison.Ordinal);
        await desk.DoneAsync("job", "add", "2", "note", "text=late", "--at", "2031-05-12 10:30");
        // The kit of today is what it was; the kit of that day is the other one.
        Assert.Equal("absolute", Gauge(await desk.JsonAsync("kit", "show")));
        Assert.Equal("dial", Gauge(await desk.JsonAsync("kit", "show", "--at", "2031-05-12")));
        Assert.Contains("2031-05-12 10:30 note", await desk.DoneAsync("job", "show", "2"), StringComparison.Ordinal);
    }

    private static string? Gauge(JsonNode answer) => answer["kit"]!["fields"]!["vacuum-gauge"]?.ToString();

    [Fact]
    public async Task A_change_of_the_kit_is_taken_back_and_brought_again()
    {
        await desk.RefusedAsync("no change of the kit was written yet", "kit", "undo");
        await desk.DoneAsync("kit", "set", "owner=Ada", "vacuum-gauge=dial");
        await desk.RefusedAsync("nothing was described before", "kit", "undo");
        desk.Clock.Advance(TimeSpan.FromHours(1));
        await desk.DoneAsync("kit", "set", "vacuum-gauge=absolute");
        desk.Clock.Advance(TimeSpan.FromHours(1));
        Assert.Equal("dial", Gauge(await desk.JsonAsync("kit", "undo")));
        // Also for the hour in between.
        Assert.Equal("dial", Gauge(await desk.JsonAsync("kit", "show", "--at", "2031-07-04 10:30")));
        Assert.Equal("dial", Gauge(await desk.JsonAsync("kit", "show")));
        Assert.Equal("absolute", Gauge(await desk.JsonAsync("kit", "undo")));
    }

    [Fact]
    public async Task The_last_entry_is_taken_back_and_brought_again()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync("nothing that counts was written", "job", "undo", "1");
        await desk.DoneAsync("job", "add", "1", "note", "text=first");
        await desk.DoneAsync("job", "add", "1", "note", "text=second");
        Assert.Contains("second", await desk.DoneAsync("job", "undo", "1"), StringComparison.Ordinal);
        var shown = await desk.DoneAsync("job", "show", "1");
        Assert.Contains("second (struck, counts no more)", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("first (struck", shown, StringComparison.Ordinal);
        await desk.DoneAsync("job", "undo", "1");
        Assert.DoesNotContain("second (struck", await desk.DoneAsync("job", "show", "1"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Words_are_found_in_notes_too()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("job", "new", "blue estate", "clutch clicks");
        await desk.DoneAsync("job", "add", "2", "note", "text=Größe 8 O-Ring, driver says it hissed");
        Assert.Contains("clutch", await desk.DoneAsync("job", "list", "--find", "HISSED"), StringComparison.Ordinal);
        // One word in the car's name, one in a note.
        var found = (await desk.JsonAsync("job", "list", "--find", "estate größe"))["jobs"]!.AsArray();
        Assert.Equal("2", Assert.Single(found)!["number"]!.ToString());
        Assert.Equal("No job fits.", (await desk.DoneAsync("job", "list", "--find", "whistled")).Trim());
    }

    [Fact]
    public async Task All_jobs_go_into_one_file_and_come_back_from_it()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("job", "add", "1", "note", "text=first");
        await desk.DoneAsync("job", "new", "blue estate", "again");
        await desk.DoneAsync("job", "export", "--all", "--to", desk.File("all.json"));
        Assert.Equal(
            await File.ReadAllTextAsync(desk.File("all.json"), Stop),
            await desk.DoneAsync("job", "export", "--all")
        );
        using var other = new Desk();
        var taken = await other.JsonAsync("job", "import", desk.File("all.json"));
        Assert.Equal(2, taken["jobs"]!.AsArray().Count);
        foreach (var number in new[] { "1", "2" })
            Assert.Equal(await desk.DoneAsync("job", "export", number), await other.DoneAsync("job", "export", number));
        // Again: nothing doubled.
        await other.DoneAsync("job", "import", desk.File("all.json"));
        Assert.Equal(2, (await other.JsonAsync("job", "list"))["jobs"]!.AsArray().Count);
        await desk.RefusedAsync("the number of a job is needed, or --all", "job", "export");
    }

    [Fact]
    public async Task One_bad_job_in_a_file_of_many_is_left_out_and_named_and_the_others_come_in()
    {
        await desk.OpenJobAsync();
        await desk.DoneAsync("job", "new", "blue estate", "again");
        var all = JsonNode.Parse(await desk.DoneAsync("job", "export", "--all"))!;
        all["jobs"]![1]!["job"]!["complaint"] = "";
        using var other = new Desk();
        await File.WriteAllTextAsync(other.File("all.json"), all.ToJsonString(), Stop);
        var answer = await other.RunAsync(["job", "import", other.File("all.json")]);
        Assert.Equal(1, answer.Code);
        Assert.Contains("imported as job 2", answer.Out, StringComparison.Ordinal);
        Assert.Contains("is left out: $.jobs[1]: $.job.complaint", answer.Trouble, StringComparison.Ordinal);
        var json = await other.RunAsync(["job", "import", other.File("all.json"), "--json"]);
        Assert.Contains("\"left-out\"", json.Out, StringComparison.Ordinal);
        Assert.Single((await other.JsonAsync("job", "list"))["jobs"]!.AsArray());
    }

    [Fact]
    public async Task What_another_machine_lacks_goes_there_in_one_file_and_then_nothing_is_lacking()
    {
        await desk.OpenJobAsync();
        using var other = new Desk();
        async Task<JsonNode> LackingAsync(Desk from, Desk to)
        {
            await to.DoneAsync("job", "tally", "--to", to.File("tally.json"));
            Assert.Equal(
                await File.ReadAllTextAsync(to.File("tally.json"), Stop),
                await to.DoneAsync("job", "tally")
            );
            await from.DoneAsync(
                "job", "export", "--all", "--without", to.File("tally.json"), "--to", to.File("lacking.json")
            );
            return JsonNode.Parse(await File.ReadAllTextAsync(to.File("lacking.json"), Stop))!;
        }
        Assert.Single((await LackingAsync(desk, other))["jobs"]!.AsArray());
        await other.DoneAsync("job", "import", other.File("lacking.json"));
        await other.DoneAsync("job", "add", "1", "note", "text=from the other one");
        Assert.Empty((await LackingAsync(desk, other))["jobs"]!.AsArray());
        Assert.Single((await LackingAsync(other, desk))["jobs"]!.AsArray());
        await desk.DoneAsync("job", "import", desk.File("lacking.json"));
        Assert.Equal(await desk.DoneAsync("job", "export", "--all"), await other.DoneAsync("job", "export", "--all"));
        await desk.RefusedAsync("it goes with --all", "job", "export", "1", "--without", desk.File("lacking.json"));
        await desk.RefusedAsync(
            "“tightcold-tally” is needed",
            "job",
            "export",
            "--all",
            "--without",
            desk.File("lacking.json")
        );
    }

    private static readonly string[] Layout =
    [
        "--column",
        "car=Vehicle",
        "--column",
        "complaint=Trouble",
        "--column",
        "opened=Date",
        "--column",
        "car.label-charge=Charge",
        "--unit",
        "car.label-charge=g",
        "--column",
        "note.text=Remarks",
        "--value",
        "car.refrigerant=R-134a",
        "--value",
        "job-state.state=closed",
        "--date-format",
        "dd.MM.yyyy",
    ];

    [Fact]
    public async Task Old_jobs_come_from_a_spreadsheet()
    {
        await desk.OpenJobAsync();
        var file = desk.File("old.csv");
        await File.WriteAllTextAsync(
            file,
            "Date;Vehicle;Charge;Trouble;Remarks\n03.05.2029;grey van;900;warm;\"hose, hissed\"\n"
                + "01.06.2030;grey van;900;warm again;\n07.06.2030;Blue Estate;;hums;new drier\n",
            Stop
        );
        var tried = await desk.DoneAsync(["job", "sheet", file, .. Layout, "--try"]);
        Assert.Contains("Nothing was written; this would be taken in: 3 jobs", tried, StringComparison.Ordinal);
        Assert.Single((await desk.JsonAsync("job", "list"))["jobs"]!.AsArray());
        var taken = await desk.JsonAsync(["job", "sheet", file, .. Layout]);
        Assert.Equal(3, taken["jobs"]!.AsArray().Count);
        // The blue estate was here already.
        Assert.Equal("grey van", Assert.Single(taken["cars"]!.AsArray())!["fields"]!["label"]!.ToString());
        Assert.Equal(5, (int)taken["entries"]!);
        var van = (await desk.JsonAsync("car", "show", "grey van"))["car"]!["fields"]!;
        Assert.Equal(0.9, (double)van["label-charge"]!["value"]!, 6);
        var jobs = (await desk.JsonAsync("job", "list", "--find", "hissed"))["jobs"]!.AsArray();
        var job = Assert.Single(jobs)!;
        Assert.StartsWith("2029-05-03T12:00", job["opened-at"]!.ToString(), StringComparison.Ordinal);
        Assert.Equal("closed", job["state"]!.ToString());
        await desk.RefusedAsync("all of them are here already", ["job", "sheet", file, .. Layout]);
        Assert.Empty((await desk.JsonAsync("check"))["troubles"]!.AsArray());
    }

    [Theory]
    [InlineData("line 2: opened", "Date;Vehicle;Charge;Trouble;Remarks\n2029-05-03;van;900;warm;x\n")]
    [InlineData(
        "line 3: car.label-charge",
        "Date;Vehicle;Charge;Trouble;Remarks\n03.05.2029;van;900;w;x\n04.05.2029;bus;90000;w;x\n"
    )]
    [InlineData("line 2: complaint is missing", "Date;Vehicle;Charge;Trouble;Remarks\n03.05.2029;van;900;;x\n")]
    [InlineData("perhaps Vehicles is meant", "Date;Vehicles;Charge;Trouble;Remarks\n03.05.2029;van;900;warm;x\n")]
    [InlineData("that day has not come", "Date;Vehicle;Charge;Trouble;Remarks\n03.05.2099;van;900;warm;x\n")]
    public async Task A_wrong_row_keeps_all_rows_out(string because, string sheet)
    {
        await File.WriteAllTextAsync(desk.File("old.csv"), sheet, Stop);
        await desk.RefusedAsync(because, ["job", "sheet", desk.File("old.csv"), .. Layout]);
    }

    [Fact]
    public async Task A_workbook_is_no_table()
    {
        await File.WriteAllBytesAsync(desk.File("old.xlsx"), "PK\u0003\u0004rest"u8.ToArray(), Stop);
        await desk.RefusedAsync("save the sheet as CSV", ["job", "sheet", desk.File("old.xlsx"), .. Layout]);
        await File.WriteAllTextAsync(desk.File("old.csv"), "a,b\n", Stop);
        // A slip in the naming itself.
        var answer = await desk.RunAsync([
            "job",
            "sheet",
            desk.File("old.csv"),
            "--column",
            "note.tex=a",
            "--column",
            "noet.text=b",
        ]);
        Assert.Equal(1, answer.Code);
        Assert.Contains("perhaps text is meant", answer.Trouble, StringComparison.Ordinal);
        Assert.Contains("perhaps note is meant", answer.Trouble, StringComparison.Ordinal);
    }
}
