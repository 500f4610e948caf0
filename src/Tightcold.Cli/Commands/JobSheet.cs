using System.Collections.Immutable;
using System.ComponentModel;
using System.Text.Json.Nodes;
using Tightcold.App.Sheets;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

internal sealed class JobSheetSettings : DeskSettings
{
    [CommandArgument(0, "<FILE>")]
    [InputFile]
    [Description("The sheet, saved as CSV in UTF-8; - is standard input.")]
    public string From { get; init; } = "";

    [CommandOption("--column <MEANING=COLUMN>")]
    [Description("Which column says what: car=Vehicle, complaint=Trouble, opened=Date, note.text=Remarks.")]
    public string[]? Columns { get; init; }

    [CommandOption("--unit <MEANING=UNIT>")]
    [Description("The unit of a column that has bare numbers: car.label-charge=g.")]
    public string[]? UnitsOf { get; init; }

    [CommandOption("--value <MEANING=WORDS>")]
    [Description("What holds for all rows: car.refrigerant=R-134a, job-state.state=closed.")]
    public string[]? Values { get; init; }

    [CommandOption("--date-format <FORMAT>")]
    [Description("How dates are written, such as dd.MM.yyyy or M/d/yyyy; 2031-06-12 unless given.")]
    public string? DateFormat { get; init; }

    [CommandOption("--who <NAME>")]
    [Description("Who wrote it; the kit's owner unless given.")]
    public string? Who { get; init; }

    [CommandOption("--try")]
    [Description("Only check all rows and say what would be taken in.")]
    public bool Try { get; init; }
}

/// <summary>Old jobs from a spreadsheet.</summary>
internal sealed class JobSheet(Surroundings surroundings) : DeskCommand<JobSheetSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobSheetSettings settings, CancellationToken cancellation)
    {
        var layout = new SheetLayout(
            FieldArguments.Read(settings.Columns).ToImmutableDictionary(),
            FieldArguments.Read(settings.UnitsOf).ToImmutableDictionary(),
            FieldArguments.Read(settings.Values).ToImmutableDictionary(),
            settings.DateFormat,
            Surroundings.Clock.LocalTimeZone
        );
        var text = await Files.ReadAsync("file", settings.From, Surroundings, cancellation).ConfigureAwait(false);
        var who = await WhoAsync(settings.Who, cancellation).ConfigureAwait(false);
        var taken = (
            await Desk.ImportSheetAsync(text, layout, who, settings.Try, cancellation).ConfigureAwait(false)
        ).Value();
        return Answer(
            settings,
            () =>
                new JsonObject
                {
                    ["tried-only"] = settings.Try,
                    ["jobs"] = new JsonArray([.. taken.Jobs.Select(JobImport.Machine)]),
                    ["cars"] = new JsonArray([.. taken.Cars.Select(Cars.Machine)]),
                    ["entries"] = taken.Entries,
                },
            () =>
            {
                var first = taken.Jobs.Min(job => job.OpenedAt);
                var last = taken.Jobs.Max(job => job.OpenedAt);
                var jobs = Say.Many(taken.Jobs.Length, $"{taken.Jobs.Length} job", $"{taken.Jobs.Length} jobs");
                var entries = Say.Many(taken.Entries, $"{taken.Entries} entry", $"{taken.Entries} entries");
                var cars = Say.Many(taken.Cars.Length, $"{taken.Cars.Length} new car", $"{taken.Cars.Length} new cars");
                var (from, to) = (Moments.Show(first), Moments.Show(last));
                Page.Line(
                    Out,
                    settings.Try
                        ? Say.It(
                            $"Nothing was written; this would be taken in: {jobs} from {from} to {to}, {entries}, "
                                + $"{cars}."
                        )
                        : Say.It($"Taken in: {jobs} from {from} to {to}, {entries}, {cars}.")
                );
            }
        );
    }
}
