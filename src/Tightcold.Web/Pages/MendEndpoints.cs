using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Quantities;
using Tightcold.Web.Forms;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>What was done at one spot, written down in one go.</summary>
internal static class MendEndpoints
{
    private const string Here = "/jobs/{number:int}/mend";

    public static void MapMend(this IEndpointRouteBuilder site)
    {
        site.MapGet(
            Here,
            async (
                HttpContext http,
                JobDesk desk,
                FindingSource findings,
                IIdSource ids,
                int number,
                string? spot,
                Guid? wrote,
                CancellationToken cancellation
            ) =>
                await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                    ? Show(
                        http,
                        Blank(
                            http,
                            new(
                                await findings.AtAGlanceAsync(desk, record, cancellation).ConfigureAwait(false),
                                wrote is { } written ? record.Journal.Find(written) : null
                            ),
                            ids.NextId(Visit.Of(http).Reader.Now),
                            spot
                        )
                    )
                    : Results.NotFound()
        );
        site.MapPost(
            Here,
            async (
                HttpContext http,
                JobDesk desk,
                FindingSource findings,
                IIdSource ids,
                int number,
                CancellationToken cancellation
            ) =>
                await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                    ? await SaveAsync(http, desk, findings, ids, record, cancellation).ConfigureAwait(false)
                    : Results.NotFound()
        );
    }

    private static MendModel Blank(HttpContext http, JobModel job, Guid id, string? spot)
    {
        var schema = EntryKinds.Get(EntryKinds.OilMoved);
        var (typed, notes) = CarriedOver.Of(job.Record, schema, Visit.Of(http), null, Typed.Nothing);
        var model = new MendModel(
            job,
            EntrySheet.Of(Visit.Of(http), job.Record, schema, typed) with
            {
                CarriedOver = notes,
            },
            id,
            CircuitMap.Spots(job.Record.Car).FirstOrDefault(name => WeighModel.Same(name, spot)) ?? "",
            []
        );
        // What stands open, else the one spot that leaks, can only be meant; of several a person chooses.
        return model.Spot.Length > 0 ? model
            : model.Open is [var open] ? model with { Spot = open }
            : model.Likely is [var only] ? model with { Spot = only }
            : model;
    }

    private static async Task<IResult> SaveAsync(
        HttpContext http,
        JobDesk desk,
        FindingSource findings,
        IIdSource ids,
        JobRecord record,
        CancellationToken cancellation
    )
    {
        var isSwitch = UnitChoice.IsSwitch(http);
        var visit = Visit.Of(http);
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        var schema = EntryKinds.Get(EntryKinds.OilMoved);
        var typed = Typed.FromPost(schema, form);
        var model = new MendModel(
            new(await findings.AtAGlanceAsync(desk, record, cancellation).ConfigureAwait(false), null),
            EntrySheet.Of(visit, record, schema, isSwitch ? typed.In(schema, visit.System) : typed),
            Guid.TryParse(form["id"], out var id) ? id : ids.NextId(visit.Reader.Now),
            form["spot"].ToString(),
            [
                .. MendModel
                    .Seals.Select(seal => seal.Name)
                    .Append(MendModel.DrierTick)
                    .Where(name => form[name] == "yes"),
            ]
        )
        {
            Then = form["then"].ToString(),
        };
        if (isSwitch)
            return Show(http, model);
        var (when, problem) = Waited.Since(form["ago"], visit.Reader.Now);
        if (problem is not null)
            return Show(http, model with { Problems = [problem] });
        var entries = model.Entries(model.Then).ToArray();
        // Sent again: what it stands for was written already, and the circuit may be closed since.
        if (record.Journal.Find(Numbered(model.Id, 0)) is { } there)
            return Page.Go($"{Routes.Job(record.Job)}?wrote={there.Id}");
        if (entries.Length == 0)
            return Show(
                http,
                model with
                {
                    Problems = [new("what", "", Phrase.Words("tick what was done, or write down the oil"))],
                }
            );
        var refused = Unread(entries);
        if (refused.Length > 0)
            return Show(http, model with { Problems = refused });
        var asks = model with { Asked = Asked(record, entries) };
        if (asks.Asked.Length > 0 && form["really"] != asks.Really)
            return Show(http, asks);
        Entry? last = null;
        for (var i = 0; i < entries.Length; i++)
        {
            var outcome = await desk.AddEntryAsync(
                    record.Job.Number,
                    entries[i].Kind,
                    entries[i].Fields,
                    when,
                    EntryEndpoints.Who(record, null),
                    id: Numbered(model.Id, i),
                    cancellation: cancellation
                )
                .ConfigureAwait(false);
            if (!outcome.Taken)
                return Show(http, model with { Problems = [.. outcome.Problems] });
            last = outcome.Value;
        }
        return Page.Go(Onward(record, model, last!));
    }

    /// <summary>Opened: the sheet again, for what is done next. Mended: to the spot on the search where the kit can bring it
    /// to pressure, else to the page of now.</summary>
    private static string Onward(JobRecord record, MendModel model, Entry last) =>
        model.Then == "opened" ? Routes.Mend(record.Job, model.Spot, last.Id)
        : model.Then == "open" && model.Open.Length > 0 ? $"{Routes.Job(record.Job)}?wrote={last.Id}"
        : record.Kit.Fields.Text("leak-tests")?.Contains("nitrogen", StringComparison.OrdinalIgnoreCase) == true
        && !model.Job.Sight.Picture.Timeline.Now.HoldsRefrigerant
            ? Routes.Searched(record.Job, model.Spot, last.Id)
        : $"{Routes.Job(record.Job)}?wrote={last.Id}";

    private static ImmutableArray<InputProblem> Unread(
        IEnumerable<(string Kind, ImmutableDictionary<string, string> Fields)> entries
    ) =>
        [
            .. entries
                .SelectMany(entry =>
                    FieldReader.Read(EntryKinds.Get(entry.Kind), entry.Fields, CultureInfo.InvariantCulture).Problems
                )
                .DistinctBy(problem => problem.Field),
        ];

    private static ImmutableArray<Phrase> Asked(
        JobRecord record,
        IEnumerable<(string Kind, ImmutableDictionary<string, string> Fields)> entries
    )
    {
        var picture = new JobPicture(record);
        var asked = ImmutableArray.CreateBuilder<Phrase>();
        foreach (var (kind, fields) in entries)
        {
            var schema = EntryKinds.Get(kind);
            var bag = FieldReader.Read(schema, fields, CultureInfo.InvariantCulture).Bag;
            asked.AddRange(Unlikely.Of(schema, bag).Select(doubt => doubt.Sentence));
            if (AskBack.Of(picture, kind, bag) is { } question)
                asked.Add(question);
        }
        return [.. asked.DistinctBy(one => one.ToString())];
    }

    /// <summary>The ids of a sheet's entries: the same ones however often it is sent.</summary>
    private static Guid Numbered(Guid sheet, int which)
    {
        Span<byte> bytes = stackalloc byte[16];
        sheet.TryWriteBytes(bytes, bigEndian: true, out _);
        BinaryPrimitives.WriteInt32BigEndian(bytes[12..], BinaryPrimitives.ReadInt32BigEndian(bytes[12..]) + which);
        return new(bytes, bigEndian: true);
    }

    private static IResult Show(HttpContext http, MendModel model) =>
        Page.Show<MendPage>(
            http,
            model.Problems.IsEmpty && model.Asked.IsEmpty
                ? StatusCodes.Status200OK
                : StatusCodes.Status422UnprocessableEntity,
            (nameof(MendPage.Model), model)
        );
}
