using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.App.Desk;
using Tightcold.App.Units;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Findings;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.Picture;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

internal sealed class JobNew(Surroundings surroundings) : DeskCommand<JobNewSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobNewSettings settings, CancellationToken cancellation)
    {
        var car = await Cars.FindAsync(Desk, settings.Car, cancellation).ConfigureAwait(false);
        var at = Moments.Read("at", settings.At, Surroundings.Clock);
        var job = (
            await Desk.OpenJobAsync(car.Id, settings.Complaint, null, settings.Told, at, cancellation)
                .ConfigureAwait(false)
        ).Value();
        return Answer(
            settings,
            () =>
                new JsonObject
                {
                    ["job"] = new JsonObject
                    {
                        ["number"] = job.Number,
                        ["id"] = job.Id.ToString(),
                        ["car-id"] = car.Id.ToString(),
                        ["complaint"] = job.Complaint,
                        ["opened-at"] = job.OpenedAt.ToString("O", CultureInfo.InvariantCulture),
                    },
                },
            () =>
                Page.Line(
                    Out,
                    at is { } then
                        ? Say.It($"Job {job.Number} opened for {car.Label}, {Moments.Show(then)}: {job.Complaint}")
                        : Say.It($"Job {job.Number} opened for {car.Label}: {job.Complaint}")
                )
        );
    }
}

internal sealed class JobList(Surroundings surroundings) : DeskCommand<JobListSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobListSettings settings, CancellationToken cancellation)
    {
        if (settings.Most is < 1)
            throw new RefusedException(
                "most",
                settings.Most.Value.ToString(CultureInfo.InvariantCulture),
                "1 or more is allowed"
            );
        var jobs = (
            await Desk.JobsAsync(
                    new JobSearch
                    {
                        State = settings.State,
                        Words = settings.Find ?? "",
                        InNotes = true,
                        Most = settings.Most ?? int.MaxValue,
                    },
                    cancellation
                )
                .ConfigureAwait(false)
        ).Jobs;
        return Answer(
            settings,
            () => new JsonObject { ["jobs"] = new JsonArray([.. jobs.Select(Machine)]) },
            () =>
            {
                if (jobs.Length == 0)
                {
                    if (settings.State is not null || settings.Find is not null)
                        Page.Line(Out, Say.It("No job fits."));
                    else
                        Page.Line(
                            Out,
                            Say.It("No job yet. Open one: tightcold job new \"blue estate\" \"blows warm\"")
                        );
                    return;
                }
                var table = new TextTable(
                    Say.It("job"),
                    Say.It("car"),
                    Say.It("complaint"),
                    Say.It("state"),
                    Say.It("last entry")
                );
                foreach (var job in jobs)
                {
                    table.Row(
                        job.Number.ToString(CultureInfo.InvariantCulture),
                        job.CarLabel,
                        job.Complaint,
                        StateText.Of(job.State, job.WaitingFor, Units),
                        job.LastEntryAt is { } last ? Moments.Show(last) : Say.It("none")
                    );
                }
                table.Show(Out);
            }
        );
    }

    private static JsonNode Machine(JobSummary job) =>
        new JsonObject
        {
            ["number"] = job.Number,
            ["id"] = job.Id.ToString(),
            ["car-id"] = job.CarId.ToString(),
            ["car"] = job.CarLabel,
            ["complaint"] = job.Complaint,
            ["state"] = job.State,
            ["waiting-for"] = job.WaitingFor,
            ["opened-at"] = job.OpenedAt.ToString("O", CultureInfo.InvariantCulture),
            ["last-entry-at"] = job.LastEntryAt?.ToString("O", CultureInfo.InvariantCulture),
        };
}

/// <summary>How a job stands, for a person.</summary>
internal static class StateText
{
    /// <param name="state">As it is stored.</param>
    /// <param name="waitingFor">As it is stored.</param>
    public static string Of(string state, string? waitingFor, ReaderUnits units)
    {
        if (waitingFor is not null)
            return Say.It($"waiting for {JobRecord.Waits(waitingFor).Render(units)}");
        return EntryKinds.Get(EntryKinds.JobState).Find(FieldNames.State) is { } field
            ? field.Says(state).Render(units)
            : state;
    }
}

internal sealed class JobShow(Surroundings surroundings) : DeskCommand<JobSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobSettings settings, CancellationToken cancellation)
    {
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        // At a glance: showing a journal is no matter of seconds.
        var picture = new JobPicture(
            record,
            await Desk.EarlierAsync(record, cancellation).ConfigureAwait(false),
            await Desk.ShelfAsync(record, cancellation).ConfigureAwait(false),
            atAGlance: true
        );
        return Answer(
            settings,
            () => JsonNode.Parse(JobDesk.Export(record))!,
            () =>
            {
                Page.Heading(Out, Say.It($"Job {record.Job.Number}, {record.Car.Label}: {record.Job.Complaint}"));
                var state = StateText.Of(record.State, record.WaitingFor, Units);
                Page.Line(Out, Say.It($"opened {Moments.Show(record.Job.OpenedAt)}, {state}"));
                NowText.Show(Out, NowWords.Of(picture), Units);
                foreach (var entry in record.Journal.All)
                {
                    var fields = BagText.OneLine(entry.Schema, entry.Fields, Units);
                    var struck = record.Journal.IsStruck(entry.Id) ? " " + Say.It("(struck, counts no more)") : "";
                    var reason = entry.Supersedes is { } old
                        ? " " + Say.It($"(instead of [{Ids.Short(old)}]: {entry.Reason})")
                        : "";
                    Page.Line(
                        Out,
                        $"[{Ids.Short(entry.Id)}] {Moments.Show(entry.ObservedAt)} {entry.Kind}: "
                            + $"{fields}{reason}{struck}"
                    );
                }
            }
        );
    }
}

internal sealed class JobFindings(Surroundings surroundings) : DeskCommand<JobFindingsSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobFindingsSettings settings, CancellationToken cancellation)
    {
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        var picture = await Desk.PictureAsync(record, cancellation).ConfigureAwait(false);
        var (findings, now) = (Walk.Of(picture), NowWords.Of(picture));
        if (settings.Step is { } asked)
            findings =
            [
                findings.FirstOrDefault(finding => FindingText.Kebab(finding.Step.ToString()) == asked)
                    ?? throw new RefusedException(
                        "step",
                        asked,
                        Phrase.Verbatim(
                            string.Join(", ", findings.Select(finding => FindingText.Kebab(finding.Step.ToString())))
                        )
                    ),
            ];
        return Answer(
            settings,
            () =>
                new JsonObject
                {
                    ["job"] = record.Job.Number,
                    ["now"] = NowText.Machine(now, Units),
                    ["findings"] = new JsonArray([
                        .. findings.Select(finding => (JsonNode)FindingText.Machine(finding, Units)),
                    ]),
                },
            () =>
            {
                NowText.Show(Out, now, Units);
                if (settings.Step is null)
                    FindingText.ShowAll(Out, findings, now.Step, record, Units);
                else
                    FindingText.Show(Out, findings[0], record, Units);
            }
        );
    }
}

internal sealed class JobKinds(Surroundings surroundings) : DeskCommand<JobKindsSettings>(surroundings)
{
    protected override bool NeedsData(JobKindsSettings settings) => false;

    protected override Task<int> RunAsync(JobKindsSettings settings, CancellationToken cancellation)
    {
        if (settings.Kind is { } asked && EntryKinds.Find(asked) is null)
            throw new RefusedException([JobDesk.NoKind(asked)]);
        var schemas = EntryKinds.All.Where(schema => settings.Kind is null || schema.Name == settings.Kind).ToList();
        return Task.FromResult(
            Answer(
                settings,
                () => new JsonObject { ["kinds"] = new JsonArray([.. schemas.Select(Machine)]) },
                () =>
                {
                    foreach (var schema in schemas)
                    {
                        Page.Heading(Out, Say.It($"{schema.Name}: {Say.It(schema.Label)}"));
                        foreach (var field in schema.Asked)
                            Page.Line(Out, "  " + Say.It($"{field.Name}: {FieldHelp.Line(field, Units)}"));
                    }
                }
            )
        );
    }

    private static JsonNode Machine(Schema schema) =>
        new JsonObject
        {
            ["kind"] = schema.Name,
            ["label"] = schema.Label,
            ["fields"] = new JsonArray([.. schema.Fields.Select(field => (JsonNode)Machine(field))]),
        };

    private static JsonObject Machine(FieldSpec field)
    {
        var node = new JsonObject
        {
            ["name"] = field.Name,
            ["label"] = field.Label,
            ["needed"] = field.Required,
            ["takes"] = TypeWord(field.Type),
        };
        switch (field.Type)
        {
            case FieldType.Quantity quantity:
                (node["unit"], node["least"], node["most"]) = (
                    SiUnit.Of(quantity.Kind),
                    quantity.MinSi,
                    quantity.MaxSi
                );
                break;
            case FieldType.Number number:
                (node["least"], node["most"]) = (number.Min, number.Max);
                break;
            case FieldType.Choice choice:
                node["words"] = new JsonArray([.. choice.Words.Select(word => (JsonNode)word)]);
                break;
            default:
                break;
        }
        return node;
    }

    private static string TypeWord(FieldType type) => type.GetType().Name.ToLowerInvariant();
}
