using System.Text.Json.Nodes;
using Spectre.Console.Cli;
using Tightcold.Cli.Commands;
using Tightcold.Cli.Commands.Charge;
using Tightcold.Cli.Commands.Loop;
using Tightcold.Cli.Commands.Props;
using Tightcold.Cli.Show;
using Tightcold.Storage;

namespace Tightcold.Cli.Wiring;

/// <summary>The program as a table of contents: commands, and what happens when one fails.</summary>
public static class CommandLine
{
    public static async Task<int> RunAsync(string[] args, Surroundings surroundings, CancellationToken cancellation)
    {
        var machine = args.Contains("--json", StringComparer.Ordinal);
        try
        {
            // The parser takes a lone hyphen for an option without a name; people mean standard input.
            return await App(surroundings)
                .RunAsync(args.Select(word => word == "-" ? Surroundings.StandardInput : word), cancellation)
                .ConfigureAwait(false);
        }
        catch (RefusedException refused)
        {
            return Problems.Show(refused.Problems, machine, surroundings);
        }
        catch (CommandAppException misread)
        {
            return Problems.Show(
                [
                    new(
                        "command line",
                        string.Join(' ', args),
                        Quantities.Phrase.Words($"{misread.Message.TrimEnd('.')}; see tightcold --help")
                    ),
                ],
                machine,
                surroundings
            );
        }
        catch (StoreException trouble)
        {
            return Trouble(trouble.Message, machine, surroundings);
        }
        catch (OperationCanceledException)
        {
            return Trouble("Stopped. What was acknowledged before is kept.", machine, surroundings);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            return Trouble(trouble.Message, machine, surroundings);
        }
#pragma warning disable CA1031 // The last wall: a person gets a sentence, never a stack trace.
        catch (Exception bug)
#pragma warning restore CA1031
        {
            return Trouble(
                $"The program itself failed ({bug.GetType().Name}: {bug.Message}). What was acknowledged before is kept; please report this sentence with what you typed.",
                machine,
                surroundings
            );
        }
    }

    private static CommandApp App(Surroundings surroundings)
    {
        var registrar = new Registrar();
        registrar.RegisterInstance(typeof(Surroundings), surroundings);
        var app = new CommandApp(registrar);
        app.Configure(config =>
        {
            config.SetApplicationName("tightcold");
            config.SetApplicationVersion(typeof(CommandLine).Assembly.GetName().Version?.ToString(3) ?? "");
            config.ConfigureConsole(surroundings.Out);
            config.SetApplicationCulture(System.Globalization.CultureInfo.InvariantCulture);
            config.PropagateExceptions();
            config.UseStrictParsing();
            config.AddBranch("car", car =>
            {
                car.SetDescription("Cars and what their labels say.");
                car.AddCommand<CarNew>("new")
                    .WithDescription("Enter a car.")
                    .WithExample("car", "new", "\"label=blue estate\"", "refrigerant=R-134a", "\"label-charge=680 g\"");
                car.AddCommand<CarList>("list").WithDescription("List the cars.");
                car.AddCommand<CarShow>("show")
                    .WithDescription("Show a car, or change it with name=value.")
                    .WithExample("car", "show", "\"blue estate\"");
            });
            config.AddBranch("kit", kit =>
            {
                kit.SetDescription("Your instruments, cans and cylinders.");
                kit.AddCommand<KitShow>("show").WithDescription("Show the kit.");
                kit.AddCommand<KitSet>("set")
                    .WithDescription("Change fields of the kit.")
                    .WithExample("kit", "set", "\"altitude=1600 m\"", "\"thermometer-plus-minus=1 K\"");
                kit.AddCommand<KitAddContainer>("add-container")
                    .WithDescription("Add a can or cylinder, or replace the one of that name.")
                    .WithExample(
                        "kit",
                        "add-container",
                        "name=A",
                        "kind=can",
                        "refrigerant=R-134a",
                        "\"gross-now=478 g\"",
                        "\"tare=138 g\""
                    );
            });
            config.AddBranch("job", job =>
            {
                job.SetDescription("Jobs: the journal, what it says, and the card.");
                job.AddCommand<JobNew>("new")
                    .WithDescription("Open a job.")
                    .WithExample("job", "new", "\"blue estate\"", "\"blows warm at idle\"");
                job.AddCommand<JobList>("list")
                    .WithDescription("List the jobs, newest first, or find some.")
                    .WithExample("job", "list", "--find", "estate");
                job.AddCommand<JobShow>("show")
                    .WithDescription("Show a job with its journal.")
                    .WithExample("job", "show", "1");
                job.AddCommand<JobKinds>("kinds")
                    .WithDescription("List the kinds of entries, or the fields of one.")
                    .WithExample("job", "kinds", "standing-reading");
                job.AddCommand<JobAdd>("add")
                    .WithDescription("Add an entry, or entries as JSON lines.")
                    .WithExample(
                        "job",
                        "add",
                        "1",
                        "standing-reading",
                        "\"low-side=68 psig\"",
                        "\"ambient-temperature=77 F\""
                    );
                job.AddCommand<JobCorrect>("correct")
                    .WithDescription("Correct an entry; the old one stays visible, struck.")
                    .WithExample(
                        "job",
                        "correct",
                        "1",
                        "3f9a21",
                        "\"low-side=86 psig\"",
                        "--reason",
                        "\"digits swapped\""
                    );
                job.AddCommand<JobStrike>("strike")
                    .WithDescription("Strike an entry without replacing it.")
                    .WithExample("job", "strike", "1", "3f9a21", "--reason", "\"wrong car\"");
                job.AddCommand<JobFindings>("findings")
                    .WithDescription("What the journal says, step by step.")
                    .WithExample("job", "findings", "1");
                job.AddCommand<JobPrint>("print")
                    .WithDescription("Write the job card as one HTML page.")
                    .WithExample("job", "print", "1", "--to", "card.html");
                job.AddCommand<JobExport>("export")
                    .WithDescription("Write the whole job as JSON.")
                    .WithExample("job", "export", "1", "--to", "job-1.json");
                job.AddCommand<JobImport>("import")
                    .WithDescription("Take in a job from a JSON file.")
                    .WithExample("job", "import", "job-1.json");
                job.AddCommand<JobChain>("chain")
                    .WithDescription("Whether every entry is as it was written down, and still as on a card.")
                    .WithExample("job", "chain", "1");
            });
            config
                .AddCommand<Diagnose>("diagnose")
                .WithDescription("Weigh the readings: faults with odds, reasons, and the next best test.")
                .WithExample("diagnose", "1");
            config
                .AddCommand<PropsCommand>("props")
                .WithDescription("Evaluate a CSV of refrigerant states.")
                .WithExample(
                    "props",
                    "--fluid",
                    "R134a",
                    "--layer",
                    "fast",
                    "--in",
                    "points.csv",
                    "--out",
                    "result.csv"
                );
            config
                .AddCommand<FluidCommand>("fluid")
                .WithDescription("Print a fluid's saturation table and draw its pressure-enthalpy diagram.")
                .WithExample("fluid", "R134a", "--svg", "r134a.svg");
            config
                .AddCommand<LoopCommand>("loop")
                .WithDescription(
                    "What a healthy car, and one with chosen faults, would show at gauges, lines and vents today."
                )
                .WithExample(
                    "loop",
                    "\"ambient=32 C\"",
                    "\"humidity=50 %\"",
                    "--fault",
                    "low-charge:0.5",
                    "--fault",
                    "condenser-fan"
                );
            config
                .AddCommand<Leaks>("leaks")
                .WithDescription(
                    "Odds and rates of every spot, what to check next, how long the charge lasts, what each way costs."
                )
                .WithExample("leaks", "1")
                .WithExample("leaks", "1", "--refrigerant-price", "60", "--workshop-price", "400", "--years", "3");
            config
                .AddCommand<Evacuate>("evacuate")
                .WithDescription("How the pump-down should go with this kit, how it went, how long is enough.")
                .WithExample("evacuate", "1");
            config
                .AddCommand<Hold>("hold")
                .WithDescription("What explains the hold, with odds, and what it could not have seen.")
                .WithExample("hold", "1", "--see", "\"10 g/yr\"");
            config
                .AddCommand<GaugeLogCommand>("gauge-log")
                .WithDescription("Take a vacuum gauge's CSV log in as readings of a job.")
                .WithExample(
                    "gauge-log",
                    "1",
                    "log.csv",
                    "--time",
                    "Time",
                    "--pressure",
                    "Vacuum",
                    "--unit",
                    "micron",
                    "--hold"
                );
            config.AddBranch("charge", charge =>
            {
                charge.SetDescription("The charge by weight: the plan of a job, and how a can gives.");
                charge
                    .AddCommand<ChargePlanCommand>("plan")
                    .WithDescription("Containers, order, scale stops and what stays behind, from here on.")
                    .WithExample("charge", "plan", "1");
                charge
                    .AddCommand<ChargeCanCommand>("can")
                    .WithDescription("How a can cools, stalls and empties.")
                    .WithExample(
                        "charge",
                        "can",
                        "--net",
                        "\"300 g\"",
                        "--air",
                        "\"25 °C\"",
                        "--low-side",
                        "\"2 bar\""
                    );
            });
            config
                .AddCommand<CylinderCommand>("cylinder")
                .WithDescription("How much a recovery cylinder may hold, and the rules.")
                .WithExample(
                    "cylinder",
                    "--refrigerant",
                    "R-134a",
                    "--water-capacity",
                    "\"47.6 lb\"",
                    "--tare",
                    "\"27.5 lb\""
                );
            config
                .AddCommand<RulesCommand>("rules")
                .WithDescription("What the law of a place says, line by line, with article, date and how sure.")
                .WithExample("rules", "DE")
                .WithExample("rules", "US-CA", "--refrigerant", "R-134a", "--works", "owner");
            config
                .AddCommand<PlacesCommand>("places")
                .WithDescription("Find the code of a country or region.")
                .WithExample("places", "new", "south");
            config
                .AddCommand<OilCommand>("oil")
                .WithDescription("Oil due for parts changed, its type, and tightening.")
                .WithExample("oil", "condenser", "receiver-drier", "--bottle", "\"PAG 46\"");
            config
                .AddCommand<VerifyCommand>("verify")
                .WithDescription("Prove a job cold, or try that proof on simulated cars.")
                .WithExample("verify", "1");
            config
                .AddCommand<LedgerCommand>("ledger")
                .WithDescription("Refrigerant by container and month, with losses.")
                .WithExample("ledger", "--csv", "ledger.csv");
            config
                .AddCommand<Backup>("backup")
                .WithDescription("Copy everything into one file, also while the site runs, and read the copy again.")
                .WithExample("backup")
                .WithExample("backup", "saved.db");
            config
                .AddCommand<Restore>("restore")
                .WithDescription(
                    "Put a backup in the place of the data, after reading it whole; what was there is kept."
                )
                .WithExample("restore", "saved.db");
            config
                .AddCommand<Check>("check")
                .WithDescription("Read everything again: the file, every journal, every ledger.")
                .WithExample("check");
            config
                .AddCommand<Serve>("serve")
                .WithDescription("Run the site, on this machine alone unless phones are let in.")
                .WithExample("serve", "--port", "5217")
                .WithExample("serve", "--lan");
            config.AddBranch("devices", devices =>
            {
                devices.SetDescription("Phones that were let in by serve --lan.");
                devices
                    .AddCommand<DeviceList>("list")
                    .WithDescription("List the paired devices, with when they were last here.");
                devices
                    .AddCommand<DeviceRevoke>("revoke")
                    .WithDescription("Let a device in no longer.")
                    .WithExample("devices", "revoke", "\"Ada's phone\"");
            });
            config
                .AddCommand<Demo>("demo")
                .WithDescription("Play an invented job, print every finding and write its card.")
                .WithExample("demo");
        });
        return app;
    }

    private static int Trouble(string sentence, bool machine, Surroundings surroundings)
    {
        if (machine)
            Page.Machine(surroundings.Out, new JsonObject { ["trouble"] = sentence });
        else
            Page.Line(surroundings.Trouble, sentence);
        return ExitCode.Trouble;
    }
}
