using System.ComponentModel;
using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.App.Books;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Findings;
using Tightcold.Jobs.Kits;
using Tightcold.Picture.Books;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Charge;

internal sealed class LedgerSettings : DeskSettings
{
    [CommandOption("--from <TIME>")]
    [Description("Jobs that ended at or after this.")]
    public string? From { get; init; }

    [CommandOption("--before <TIME>")]
    [Description("And before this.")]
    public string? Before { get; init; }

    [CommandOption("--csv <FILE>")]
    [OutputFile]
    [Description("Write the ledger as a table for a spreadsheet.")]
    public string? Csv { get; init; }
}

/// <summary>Refrigerant over all jobs: by container, by month, lost, and what that weighs as carbon dioxide.</summary>
internal sealed class LedgerCommand(Surroundings surroundings) : DeskCommand<LedgerSettings>(surroundings)
{
    protected override async Task<int> RunAsync(LedgerSettings settings, CancellationToken cancellation)
    {
        var leftOut = new List<string>();
        var ledger = RefrigerantLedger.Of(
            (await Desk.RecordsAsync(null, leftOut, cancellation).ConfigureAwait(false)).Select(
                record => new Tightcold.Picture.JobPicture(record)
            ),
            Moments.Read("from", settings.From, Surroundings.Clock),
            Moments.Read("before", settings.Before, Surroundings.Clock)
        );
        var kit = await Desk.KitAsync(cancellation).ConfigureAwait(false);
        if (settings.Csv is { } path)
            await Files.WriteAsync("--csv", path, LedgerCsv.Write(ledger), cancellation).ConfigureAwait(false);
        return Answer(
            settings,
            () => Machine(ledger, settings.Csv, leftOut),
            () => Show(ledger, kit, settings.Csv, leftOut)
        );
    }

    private void Show(RefrigerantLedger ledger, Kit kit, string? csv, List<string> leftOut)
    {
        string Shown(double kilograms) => Units.Format(Measure.Kilograms(Math.Abs(kilograms) < 5e-7 ? 0 : kilograms));
        Page.Heading(
            Out,
            Say.It(
                $"Drawn {Shown(ledger.DrawnKg)}, charged {Shown(ledger.ChargedKg)}, recovered "
                    + $"{Shown(ledger.RecoveredKg)}, lost {Shown(ledger.LostKg)}"
            )
        );
        var containers = new TextTable(
            Say.It("container"),
            Say.It("refrigerant"),
            Say.It("drawn"),
            Say.It("recovered into it")
        );
        foreach (var row in ledger.ByContainer)
            containers.Row(row.Container, row.Refrigerant, Shown(row.DrawnKg), Shown(row.RecoveredKg));
        containers.Show(Out);
        var months = new TextTable(Say.It("month"), Say.It("drawn"), Say.It("recovered"), Say.It("lost"));
        foreach (var row in ledger.ByMonth)
            months.Row(
                string.Create(CultureInfo.InvariantCulture, $"{row.Year}-{row.Month:00}"),
                Shown(row.DrawnKg),
                Shown(row.RecoveredKg),
                Shown(row.LostKg)
            );
        months.Show(Out);
        Page.Line(
            Out,
            ledger.LostAsCarbonDioxideKg > 0
                ? Say.It(
                    $"What was lost warms over 100 years like some "
                        + $"{Shown(OneFigure.Of(ledger.LostAsCarbonDioxideKg))} of carbon dioxide; what cars leaked "
                        + $"before they came is not in it."
                )
                : Say.It("Nothing was lost that warms; what cars leaked before they came is not in it.")
        );
        foreach (var figure in ledger.WarmingStandsOn)
            Page.Line(Out, "  " + Say.It($"counted with {Units.Says(figure)}"));
        if (ledger.LostWithoutFigureKg > 0)
            Page.Line(
                Out,
                "  " + Say.It($"{Shown(ledger.LostWithoutFigureKg)} of a gas without a figure is not in it")
            );
        foreach (var duty in RecordSheet.Duty(kit))
            Page.Line(Out, Units.Says(duty));
        foreach (var sentence in leftOut)
            Page.Line(Out, Say.It($"Left out: {Units.Says(sentence)}"));
        if (csv is not null)
            Page.Line(Out, Say.It($"written to {csv}"));
    }

    private static JsonObject Machine(RefrigerantLedger ledger, string? csv, List<string> leftOut) =>
        new()
        {
            ["drawn-kg"] = ledger.DrawnKg,
            ["charged-kg"] = ledger.ChargedKg,
            ["recovered-kg"] = ledger.RecoveredKg,
            ["lost-kg"] = ledger.LostKg,
            ["lost-as-co2-kg"] = ledger.LostAsCarbonDioxideKg,
            ["warming-by"] = new JsonArray([.. ledger.WarmingStandsOn.Select(figure => (JsonNode)Words.Plain(figure))]),
            ["lost-without-figure-kg"] = ledger.LostWithoutFigureKg,
            ["by-container"] = new JsonArray([
                .. ledger.ByContainer.Select(row =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["container"] = row.Container,
                            ["refrigerant"] = row.Refrigerant,
                            ["drawn-kg"] = row.DrawnKg,
                            ["recovered-kg"] = row.RecoveredKg,
                        }
                ),
            ]),
            ["by-month"] = new JsonArray([
                .. ledger.ByMonth.Select(row =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["year"] = row.Year,
                            ["month"] = row.Month,
                            ["drawn-kg"] = row.DrawnKg,
                            ["recovered-kg"] = row.RecoveredKg,
                            ["lost-kg"] = row.LostKg,
                        }
                ),
            ]),
            ["lines"] = new JsonArray([
                .. ledger.Lines.Select(line =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["job"] = line.Job,
                            ["date"] = line.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                            ["car"] = line.Car,
                            ["refrigerant"] = line.Refrigerant,
                            ["container"] = line.Container,
                            ["drawn-kg"] = line.DrawnKg,
                            ["recovered-kg"] = line.RecoveredKg,
                            ["lost-kg"] = line.LostKg,
                            ["charged-kg"] = line.ChargedKg,
                            ["lost-as-co2-kg"] = line.LostAsCarbonDioxideKg,
                            ["gwp"] = line.Warming?.Potential,
                            ["gwp-by"] = line.Warming is { } warming ? Words.Plain(warming.Words) : null,
                            ["place"] = line.Place,
                            ["person"] = line.Person,
                            ["certificate"] = line.Certificate,
                            ["went-to"] = line.WentTo,
                        }
                ),
            ]),
            ["left-out"] = new JsonArray([.. leftOut.Select(sentence => (JsonNode)sentence)]),
            ["csv"] = csv,
        };
}
