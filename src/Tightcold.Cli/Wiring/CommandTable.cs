using System.Collections.Immutable;
using Tightcold.App.Expectation;
using Tightcold.Cli.Commands;
using Tightcold.Cli.Commands.Charge;
using Tightcold.Cli.Commands.Loop;
using Tightcold.Cli.Commands.Props;
using Tightcold.Cli.Commands.Shell;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Kits;

namespace Tightcold.Cli.Wiring;

/// <summary>The program as a table of contents.</summary>
internal static class CommandTable
{
    /// <summary>First words that stand above commands of their own.</summary>
    [Quantities.Said]
    public static readonly ImmutableArray<(string Name, string Says)> Branches =
    [
        ("car", "Cars and what their labels say."),
        ("kit", "Your instruments, cans and cylinders."),
        ("job", "Jobs: the journal, what it says, and the card."),
        ("charge", "The charge by weight: the plan of a job, and how a can gives."),
        ("devices", "Phones that were let in by serve --lan."),
    ];

    public static readonly ImmutableArray<CommandRow> All =
    [
        CommandRow.Of(
            s => new CarNew(s),
            "car new",
            "Enter a car.",
            "car new \"label=blue estate\" refrigerant=R-134a \"label-charge=680 g\""
        ) with
        {
            Fields = _ => Car.Schema,
        },
        CommandRow.Of(s => new CarList(s), "car list", "List the cars.", "car list"),
        CommandRow.Of(
            s => new CarShow(s),
            "car show",
            "Show a car, or change it with name=value.",
            "car show \"blue estate\"",
            "car show \"blue estate\" \"oil-amount=8 fl oz\""
        ) with
        {
            Fields = _ => Car.Schema,
        },
        CommandRow.Of(
            s => new KitShow(s),
            "kit show",
            "Show the kit as it is, or as it was then.",
            "kit show",
            "kit show --at 2031-05-01"
        ),
        CommandRow.Of(
            s => new KitSet(s),
            "kit set",
            "Change fields of the kit, from now on or from an earlier day on.",
            "kit set \"altitude=1600 m\" \"thermometer-plus-minus=1 K\"",
            "kit set vacuum-gauge=absolute --from 2031-05-01"
        ) with
        {
            Fields = _ => Kit.Schema,
        },
        CommandRow.Of(
            s => new KitAddContainer(s),
            "kit add-container",
            "Add a can or cylinder, or replace the one of that name.",
            "kit add-container name=A kind=can refrigerant=R-134a \"gross-now=478 g\" \"tare=138 g\""
        ) with
        {
            Fields = _ => Container.Schema,
        },
        CommandRow.Of(
            s => new KitUndo(s),
            "kit undo",
            "Take the last change of the kit back; once more takes that back.",
            "kit undo"
        ),
        CommandRow.Of(
            s => new JobNew(s),
            "job new",
            "Open a job, now or on an earlier day.",
            "job new \"blue estate\" \"blows warm at idle\"",
            "job new \"blue estate\" \"blows warm at idle\" --at \"2031-06-12 09:30\""
        ),
        CommandRow.Of(
            s => new JobList(s),
            "job list",
            "List the jobs, newest first, or find some.",
            "job list",
            "job list --find \"estate hissed\" --state open"
        ),
        CommandRow.Of(s => new JobShow(s), "job show", "Show a job with its journal.", "job show 1"),
        CommandRow.Of(
            s => new JobKinds(s),
            "job kinds",
            "List the kinds of entries, or the fields of one.",
            "job kinds",
            "job kinds standing-reading"
        ),
        CommandRow.Of(
            s => new JobAdd(s),
            "job add",
            "Add an entry, or entries as JSON lines.",
            "job add 1 standing-reading \"low-side=68 psig\" \"ambient-temperature=77 °F\""
        ) with
        {
            Fields = words => words.Count > 1 ? EntryKinds.Find(words[1]) : null,
            More = "The fields of a kind: tightcold job add 1 KIND --help",
        },
        CommandRow.Of(
            s => new JobCorrect(s),
            "job correct",
            "Correct an entry; the old one stays visible, struck.",
            "job correct 1 3f9a21 \"low-side=86 psig\" --reason \"digits swapped\""
        ),
        CommandRow.Of(
            s => new JobStrike(s),
            "job strike",
            "Strike an entry without replacing it.",
            "job strike 1 3f9a21 --reason \"wrong car\""
        ),
        CommandRow.Of(
            s => new JobUndo(s),
            "job undo",
            "Strike what was written last: one entry, or all readings of one gauge log.",
            "job undo 1"
        ),
        CommandRow.Of(
            s => new JobFindings(s),
            "job findings",
            "What the journal says, step by step.",
            "job findings 1"
        ),
        CommandRow.Of(
            s => new JobChain(s),
            "job chain",
            "Whether every entry is as it was written down, and still as on a card.",
            "job chain 1"
        ),
        CommandRow.Of(
            s => new JobCalendar(s),
            "job calendar",
            "Write the next check as a calendar file.",
            "job calendar 1 --to next-check.ics"
        ),
        CommandRow.Of(
            s => new JobPrint(s),
            "job print",
            "Write the job card as one HTML page.",
            "job print 1 --to card.html"
        ),
        CommandRow.Of(
            s => new JobExport(s),
            "job export",
            "Write a whole job, or all that is here, or what somebody lacks, as JSON.",
            "job export 1 --to job-1.json",
            "job export --all --to everything.json",
            "job export --all --without phone-tally.json --to lacking.json"
        ),
        CommandRow.Of(
            s => new JobTally(s),
            "job tally",
            "Write down what is held here, by ids, for whoever sends what is lacking.",
            "job tally --to laptop-tally.json"
        ),
        CommandRow.Of(
            s => new JobImport(s),
            "job import",
            "Take in a job, or all that a file holds, from JSON.",
            "job import job-1.json"
        ),
        CommandRow.Of(
            s => new JobSheet(s),
            "job sheet",
            "Take in old jobs from a spreadsheet saved as CSV; you name its columns.",
            "job sheet jobs.csv --column car=Vehicle --column complaint=Trouble --column opened=Date "
                + "--column car.label-charge=Charge --unit car.label-charge=g --value car.refrigerant=R-134a"
        ) with
        {
            More =
                "A column is named for what it means: car, complaint, opened, car.FIELD (fields of car new), or "
                + "KIND.FIELD (an entry of that kind, such as note.text). Each row is a job. All rows or none.",
        },
        CommandRow.Of(
            s => new Diagnose(s),
            "diagnose",
            "Weigh the readings: faults with odds, reasons, and the next best test.",
            "diagnose 1"
        ),
        CommandRow.Of(
            s => new PropsCommand(s),
            "props",
            "Evaluate a CSV of refrigerant states.",
            "props --fluid R134a --layer fast --in points.csv --out result.csv"
        ),
        CommandRow.Of(
            s => new FluidCommand(s),
            "fluid",
            "Print a fluid's saturation table and draw its pressure-enthalpy diagram.",
            "fluid R134a --svg r134a.svg"
        ),
        CommandRow.Of(
            s => new LoopCommand(s),
            "loop",
            "What a healthy car, and one with chosen faults, would show at gauges, lines and vents today.",
            "loop \"ambient=32 C\" \"humidity=50 %\" --fault low-charge:0.5 --fault condenser-fan"
        ) with
        {
            Fields = _ => ExpectationDay.Schema,
        },
        CommandRow.Of(
            s => new Leaks(s),
            "leaks",
            "Odds and rates of every spot, what to check next, how long the charge lasts, what each way costs.",
            "leaks 1",
            "leaks 1 --refrigerant-price 60 --workshop-price 400 --years 3"
        ),
        CommandRow.Of(
            s => new Evacuate(s),
            "evacuate",
            "How the pump-down should go with this kit, how it went, how long is enough.",
            "evacuate 1"
        ),
        CommandRow.Of(
            s => new Hold(s),
            "hold",
            "What explains the hold, with odds, and what it could not have seen.",
            "hold 1 --see \"10 g/yr\""
        ),
        CommandRow.Of(
            s => new GaugeLogCommand(s),
            "gauge-log",
            "Take a vacuum gauge's CSV log in as readings of a job.",
            "gauge-log 1 log.csv --time Time --pressure Vacuum --unit micron --hold"
        ),
        CommandRow.Of(
            s => new ChargePlanCommand(s),
            "charge plan",
            "Containers, order, scale stops and what stays behind, from here on.",
            "charge plan 1"
        ),
        CommandRow.Of(
            s => new ChargeCanCommand(s),
            "charge can",
            "How a can cools, stalls and empties.",
            "charge can --net \"300 g\" --air \"-5 °C\" --low-side \"2 bar\""
        ),
        CommandRow.Of(
            s => new CylinderCommand(s),
            "cylinder",
            "How much a recovery cylinder may hold, and the rules.",
            "cylinder --refrigerant R-134a --water-capacity \"47.6 lb\" --tare \"27.5 lb\""
        ),
        CommandRow.Of(
            s => new RulesCommand(s),
            "rules",
            "What the law of a place says, line by line, with article, date and how sure.",
            "rules DE",
            "rules US-CA --refrigerant R-134a --works owner"
        ),
        CommandRow.Of(s => new PlacesCommand(s), "places", "Find the code of a country or region.", "places new south"),
        CommandRow.Of(
            s => new OilCommand(s),
            "oil",
            "Oil due for parts changed, its type, and tightening.",
            "oil condenser receiver-drier --bottle \"PAG 46\""
        ),
        CommandRow.Of(
            s => new VerifyCommand(s),
            "verify",
            "Prove a job cold, or try that proof on simulated cars.",
            "verify 1"
        ),
        CommandRow.Of(
            s => new LedgerCommand(s),
            "ledger",
            "Refrigerant by container and month, with losses.",
            "ledger --csv ledger.csv"
        ),
        CommandRow.Of(
            s => new Backup(s),
            "backup",
            "Copy everything into one file, also while the site runs, and read the copy again.",
            "backup",
            "backup saved.db"
        ),
        CommandRow.Of(
            s => new Restore(s),
            "restore",
            "Put a backup in the place of the data, after reading it whole; what was there is kept.",
            "restore saved.db"
        ),
        CommandRow.Of(
            s => new Check(s),
            "check",
            "Read everything again: the file, every journal, every ledger.",
            "check"
        ),
        CommandRow.Of(
            s => new Serve(s),
            "serve",
            "Run the site, on this machine alone unless phones are let in.",
            "serve --port 5217",
            "serve --lan"
        ),
        CommandRow.Of(
            s => new Owner(s),
            "owner",
            "Print a link that lets one browser of this machine in, as the owner's.",
            "owner"
        ),
        CommandRow.Of(
            s => new DeviceList(s),
            "devices list",
            "List the paired devices, with when they were last here.",
            "devices list"
        ),
        CommandRow.Of(
            s => new DeviceRevoke(s),
            "devices revoke",
            "Let a device in no longer.",
            "devices revoke \"Ada's phone\""
        ),
        CommandRow.Of(
            s => new Demo(s),
            "demo",
            "Play an invented job, print every finding and write its card.",
            "demo"
        ),
        CommandRow.Of(
            s => new CompletionCommand(s),
            "completion",
            "Print what makes a shell complete commands, options, kinds and fields at the Tab key.",
            "completion bash"
        ) with
        {
            More =
                "bash: tightcold completion bash > ~/.local/share/bash-completion/completions/tightcold. zsh: "
                + "tightcold completion zsh > a folder of fpath, named _tightcold. fish: tightcold completion fish > "
                + "~/.config/fish/completions/tightcold.fish. PowerShell: tightcold completion powershell >> $PROFILE",
        },
        CommandRow.Of(s => new ManCommand(s), "man", "Print the manual page of all commands.", "man --to tightcold.1"),
    ];

    /// <summary>The command that the first words call, and how many they are; null when they call none.</summary>
    public static (CommandRow Row, int Words)? Find(IReadOnlyList<string> words)
    {
        for (var count = 2; count > 0; count--)
        {
            if (words.Count < count)
                continue;
            var path = string.Join(' ', words.Take(count));
            if (All.FirstOrDefault(row => row.Path == path) is { } row)
                return (row, count);
        }
        return null;
    }

    public static bool IsBranch(string word) => Branches.Any(branch => branch.Name == word);
}
