using System.Text;

namespace Tightcold.Cli.Tests.Words;

/// <summary>Slips that people made on the command line: each costs one true sentence, and nothing is done.</summary>
public sealed class OneTrueSentenceTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("--find needs WORDS behind it", "job", "list", "--find")]
    [InlineData("--find needs WORDS behind it", "job", "list", "--find", "--json=x")]
    [InlineData("--reason needs WORDS behind it", "job", "strike", "1", "abcdef", "--reason")]
    [InlineData("--json takes no value", "job", "list", "--json=yes")]
    [InlineData("only once", "job", "list", "--find", "a", "--find", "b")]
    [InlineData("one word too many", "job", "new", "blue estate", "blows", "warm")]
    [InlineData("complaint is missing", "job", "new", "blue estate")]
    [InlineData("a whole number", "job", "show", "one")]
    [InlineData("more than 0 and at most 20 years are allowed", "leaks", "1", "--years", "-3")]
    [InlineData("a price from 0", "leaks", "1", "--part-price", "-1")]
    [InlineData("1 or more is allowed", "job", "list", "--most", "-5")]
    [InlineData("perhaps condenser is meant", "oil", "condensor")]
    [InlineData("receiver-drier", "oil", "gearbox")]
    [InlineData("that moment has not come", "kit", "set", "owner=Ada", "--from", "2099-01-01 00:00")]
    [InlineData(
        "that moment has not come",
        "kit",
        "add-container",
        "name=B",
        "kind=can",
        "refrigerant=R-134a",
        "--from",
        "2099-01-01"
    )]
    [InlineData("that moment has not come", "job", "new", "blue estate", "warm", "--at", "2099-01-01")]
    [InlineData("a car of that name is there already", "car", "new", "label=Blue Estate", "refrigerant=R-134a")]
    [InlineData("perhaps job list is meant", "job", "lsit")]
    [InlineData("perhaps diagnose is meant", "diagnoze", "1")]
    [InlineData("perhaps --find is meant", "job", "list", "--fimd", "x")]
    [InlineData("perhaps standing-reading is meant", "job", "add", "1", "standing-raeding")]
    [InlineData(
        "perhaps low-side is meant",
        "job",
        "add",
        "1",
        "standing-reading",
        "lowside=2 bar",
        "ambient-temperature=20 °C"
    )]
    [InlineData(
        "perhaps soap bubbles is meant",
        "job",
        "add",
        "1",
        "leak-check",
        "spot=condenser",
        "test=soap bubles",
        "outcome=clear leak"
    )]
    [InlineData("perhaps blue estate is meant", "job", "new", "blue estat", "warm")]
    [InlineData("a command stands first", "--units", "us", "job")]
    [InlineData("there is no such file", "diagnose", "--readings", "nowhere.json")]
    [InlineData("nothing to draw yet", "hold", "1", "--svg", "hold.svg")]
    [InlineData("the folder for it is not there", "ledger", "--csv", "no-such-folder/ledger.csv")]
    public async Task A_slip_costs_one_sentence(string because, params string[] words)
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync(because, words);
    }

    [Fact]
    public async Task A_value_below_zero_behind_an_option_is_a_value()
    {
        var said = await desk.DoneAsync("charge", "can", "--net", "300 g", "--air", "-5 °C", "--low-side", "0.5 bar");
        Assert.Contains("-5.0 °C", said, StringComparison.Ordinal);
        Assert.Equal(said, await desk.DoneAsync("charge", "can", "--net=300 g", "--air=-5 °C", "--low-side=0.5 bar"));
    }

    [Theory]
    [InlineData("job", "print", "1", "--to")]
    [InlineData("job", "export", "1", "--to")]
    [InlineData("job", "export", "--all", "--to")]
    [InlineData("diagnose", "1", "--svg")]
    [InlineData("leaks", "1", "--svg")]
    [InlineData("evacuate", "1", "--svg")]
    [InlineData("ledger", "--csv")]
    [InlineData("demo", "--to")]
    [InlineData("fluid", "R134a", "--svg")]
    [InlineData("loop", "ambient=30 C", "--svg")]
    [InlineData("man", "--to")]
    [InlineData("props", "--fluid", "R134a", "--out")]
    public async Task A_folder_is_no_file_to_write(params string[] words)
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync("that is a folder; the name of a file is needed here", [.. words, desk.Folder]);
    }

    [Theory]
    [InlineData("job", "import")]
    [InlineData("job", "sheet")]
    [InlineData("gauge-log", "1")]
    [InlineData("restore")]
    [InlineData("diagnose", "--readings")]
    [InlineData("job", "add", "1", "--lines")]
    public async Task A_folder_is_no_file_to_read(params string[] words)
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync("that is a folder; the name of a file is needed here", [.. words, desk.Folder]);
    }

    [Fact]
    public async Task A_file_in_Latin_1_is_named_with_its_line()
    {
        await desk.OpenJobAsync();
        var file = desk.File("latin.csv");
        await File.WriteAllBytesAsync(
            file,
            Encoding.Latin1.GetBytes("Time,Vacuum\n08:00:00,500\n08:01:00,400 °\n"),
            Stop
        );
        string[] log = ["gauge-log", "1", file, "--time", "Time", "--pressure", "Vacuum"];
        await desk.RefusedAsync("line 3 is not written in UTF-8 (perhaps in Latin-1)", log);
        await desk.RefusedAsync("line 3 is not written in UTF-8", "job", "import", file);
        await desk.RefusedAsync("line 3 is not written in UTF-8", "job", "sheet", file, "--column", "car=Time");
        // A spreadsheet's own mark for UTF-16 is understood.
        await File.WriteAllTextAsync(file, "Time,Vacuum\n08:00:00,500\n08:01:00,400\n", Encoding.Unicode, Stop);
        await desk.DoneAsync([.. log, "--start", "2031-07-04 08:00"]);
    }

    [Fact]
    public async Task The_hour_that_summer_time_takes_and_the_one_it_brings_twice()
    {
        await desk.OpenJobAsync();
        desk.Clock.SetLocalTimeZone(TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin"));
        string[] note = ["job", "add", "1", "note", "text=x", "--at"];
        await desk.RefusedAsync("the clocks went over that hour", [.. note, "2031-03-30 02:30"]);
        await desk.RefusedAsync(
            "2030-10-27T02:30:00+02:00 or 2030-10-27T02:30:00+01:00 is allowed",
            [.. note, "2030-10-27 02:30"]
        );
        await desk.DoneAsync([.. note, "2030-10-27T02:30:00+02:00"]);
        await desk.DoneAsync([.. note, "2031-03-30 03:30"]);
    }

    [Fact]
    public async Task A_refused_command_remembers_no_units()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync("no job has that number", "job", "show", "7", "--units", "us");
        Assert.False(File.Exists(desk.File("settings.json")));
        await desk.DoneAsync("job", "list", "--units", "us");
        Assert.Contains("us", await File.ReadAllTextAsync(desk.File("settings.json"), Stop), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_gauge_log_is_taken_in_once_and_can_be_taken_back()
    {
        await desk.OpenJobAsync();
        var file = desk.File("gauge.csv");
        await File.WriteAllTextAsync(file, "Time,Vacuum\n08:00:00,500\n08:01:00,520\n08:02:00,530\n", Stop);
        string[] log =
        [
            "gauge-log",
            "1",
            file,
            "--time",
            "Time",
            "--pressure",
            "Vacuum",
            "--start",
            "2031-07-04 08:00",
        ];
        await desk.DoneAsync([.. log, "--hold"]);
        await desk.RefusedAsync("3 of its 3 readings are in the journal already", [.. log, "--hold"]);
        await desk.RefusedAsync("3 of its 3 readings are in the journal already", log);
        var struck = (await desk.JsonAsync("job", "undo", "1"))["struck"]!.AsArray();
        Assert.Equal(3, struck.Count);
        Assert.DoesNotContain("3 hold", await desk.DoneAsync("hold", "1"), StringComparison.Ordinal);
        await desk.DoneAsync(log);
        var entries = (await desk.JsonAsync("job", "show", "1"))["entries"]!.AsArray();
        Assert.Equal(6, entries.Count(entry => entry!["kind"]!.ToString() == "vacuum-reading"));
    }

    [Fact]
    public async Task What_cannot_be_written_is_trouble_of_the_machine()
    {
        await desk.OpenJobAsync();
        // /proc takes no new files, whoever asks.
        Assert.SkipUnless(OperatingSystem.IsLinux(), "a folder that takes no files is known on Linux only");
        var answer = await desk.RunAsync(["ledger", "--csv", "/proc/ledger.csv"]);
        Assert.Equal(2, answer.Code);
        Assert.DoesNotContain("   at ", answer.Trouble, StringComparison.Ordinal);
    }
}
