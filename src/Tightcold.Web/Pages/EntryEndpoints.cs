using System.Collections.Immutable;
using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.App.Expectation;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Quantities;
using Tightcold.Web.Forms;
using Tightcold.Web.Http;
using Tightcold.Web.Words;

namespace Tightcold.Web.Pages;

/// <summary>Writing an entry, correcting one, striking one, looking at one.</summary>
internal static class EntryEndpoints
{
    /// <summary>How a browser's date-and-time field writes a moment.</summary>
    private const string FieldTime = "yyyy-MM-dd'T'HH:mm";

    public static void MapEntries(this IEndpointRouteBuilder site)
    {
        var entries = site.MapGroup("/jobs/{number:int}/entries");
        entries.MapGet(
            "/new/{kind}",
            async (
                HttpContext http,
                JobDesk desk,
                IIdSource ids,
                int number,
                string kind,
                string? spot,
                string? first,
                Guid? wrote,
                CancellationToken cancellation
            ) =>
                await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record
                || Writable(kind) is not { } schema
                    ? Results.NotFound()
                : TapModel.Fits(kind)
                    ? Taps(http, record, schema, ids.NextId(Visit.Of(http).Reader.Now), wrote, first, [])
                : Form(http, Blank(http, record, schema, ids, spot, first))
        );
        entries.MapPost(
            "/new/{kind}",
            async (
                HttpContext http,
                JobDesk desk,
                IIdSource ids,
                int number,
                string kind,
                CancellationToken cancellation
            ) =>
                await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                && Writable(kind) is { } schema
                    ? await WriteAsync(http, desk, ids, record, schema, null, cancellation).ConfigureAwait(false)
                    : Results.NotFound()
        );
        entries.MapGet(
            "/{id:guid}",
            async (HttpContext http, JobDesk desk, int number, Guid id, CancellationToken cancellation) =>
                await FindAsync(desk, number, id, cancellation).ConfigureAwait(false) is ({ } record, { } entry)
                    ? await PhotoEndpoints.ShowAsync(http, desk, record, entry).ConfigureAwait(false)
                    : Results.NotFound()
        );
        entries.MapGet(
            "/{id:guid}/correct",
            async (
                HttpContext http,
                JobDesk desk,
                IIdSource ids,
                int number,
                Guid id,
                CancellationToken cancellation
            ) =>
                await FindAsync(desk, number, id, cancellation).ConfigureAwait(false) is ({ } record, { } entry)
                && Writable(entry.Kind) is { } schema
                    ? Form(http, Correcting(http, record, schema, entry, ids))
                    : Results.NotFound()
        );
        entries.MapPost(
            "/{id:guid}/correct",
            async (
                HttpContext http,
                JobDesk desk,
                IIdSource ids,
                int number,
                Guid id,
                CancellationToken cancellation
            ) =>
                await FindAsync(desk, number, id, cancellation).ConfigureAwait(false) is ({ } record, { } entry)
                && Writable(entry.Kind) is { } schema
                    ? await WriteAsync(http, desk, ids, record, schema, entry, cancellation).ConfigureAwait(false)
                    : Results.NotFound()
        );
        entries.MapStrikes();
    }

    internal static async Task<(JobRecord?, Entry?)> FindAsync(
        JobDesk desk,
        int number,
        Guid id,
        CancellationToken cancellation
    )
    {
        var record = await desk.RecordAsync(number, cancellation).ConfigureAwait(false);
        return (record, record?.Journal.Find(id));
    }

    /// <summary>The name that stands in new entries: the kit's owner.</summary>
    internal static string Who(JobRecord record, string? typed) =>
        string.IsNullOrWhiteSpace(typed)
            ? record.Kits.OrderBy(kit => kit.From).LastOrDefault()?.Fields.Text("owner") ?? ""
            : typed.Trim();

    private static Schema? Writable(string kind) => kind == EntryKinds.Struck ? null : EntryKinds.Find(kind);

    private static async Task<IResult> WriteAsync(
        HttpContext http,
        JobDesk desk,
        IIdSource ids,
        JobRecord record,
        Schema schema,
        Entry? corrects,
        CancellationToken cancellation
    )
    {
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        var typed = Typed.FromPost(schema, form);
        var zone = Visit.Of(http).Reader.Zone;
        var (when, whenProblem) = Moment(form["when"], zone);
        // The field shows minutes. Left as it was, the corrected entry keeps its place in the order to the second.
        if (corrects is not null && form["when"] == FieldText(corrects.ObservedAt, zone))
            when = corrects.ObservedAt;
        var texts = typed.Texts(schema);
        var model = new EntryFormModel(
            record,
            Sheet(http, record, schema, typed),
            Guid.TryParse(form["id"], out var id) ? id : ids.NextId(Visit.Of(http).Reader.Now),
            corrects,
            form["when"].ToString(),
            form["who"].ToString(),
            form["reason"].ToString()
        );
        if (whenProblem is not null)
            return Refused(http, model, [whenProblem]);
        // Kept in a browser without network: how long ago it was sent first. A phone's clock may run wrong, its
        // difference does not.
        var (waited, waitProblem) = Waited.Since(form["ago"], Visit.Of(http).Reader.Now);
        if (waitProblem is not null)
            return Refused(http, model, [waitProblem]);
        when ??= waited;
        if (record.Journal.Find(model.Id) is { } there)
        {
            // The same form sent twice: it is written already. Another content under the same id is the form reached
            // again by the back button: a new entry.
            if (
                there.Kind == schema.Name
                && FieldReader.Read(schema, texts, CultureInfo.InvariantCulture).Bag.Equals(there.Fields)
            )
                return Written(record.Job, there);
            model = model with { Id = ids.NextId(Visit.Of(http).Reader.Now) };
        }
        var (bag, unread) = FieldReader.Read(schema, texts, CultureInfo.InvariantCulture);
        if (unread.Count == 0)
        {
            var doubts = Unlikely.Of(schema, bag);
            var asked = corrects is null ? AskBack.Of(new JobPicture(record), schema.Name, bag) : null;
            if (EntryFormModel.Key(doubts, asked) is { Length: > 0 } key && form["really"] != key)
                return Page.Show<EntryFormPage>(
                    http,
                    StatusCodes.Status422UnprocessableEntity,
                    (nameof(EntryFormPage.Model), model with { Doubts = doubts, Asked = asked })
                );
        }

        var outcome = await desk.AddEntryAsync(
                record.Job.Number,
                schema.Name,
                texts,
                when,
                Who(record, model.Who),
                corrects?.Id,
                corrects is null ? null : model.Reason,
                model.Id,
                cancellation
            )
            .ConfigureAwait(false);
        return outcome.Taken ? Written(record.Job, outcome.Value) : Refused(http, model, outcome.Problems);
    }

    /// <summary>Signs are tapped several in a row: back to them, elsewhere to the job.</summary>
    private static IResult Written(Job job, Entry entry) =>
        Page.Go(
            (entry is { Kind: EntryKinds.Sign, Supersedes: null } ? Routes.NewEntry(job, entry.Kind) : Routes.Job(job))
                + $"?wrote={entry.Id}"
        );

    private static IResult Taps(
        HttpContext http,
        JobRecord record,
        Schema schema,
        Guid id,
        Guid? wrote,
        string? first,
        ImmutableArray<InputProblem> problems
    ) =>
        Page.Show<TapPage>(
            http,
            problems.IsEmpty ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
            (
                nameof(TapPage.Model),
                new TapModel(
                    record,
                    Sheet(http, record, schema, Typed.Nothing) with
                    {
                        Problems = problems,
                    },
                    id,
                    wrote is { } written ? record.Journal.Find(written) : null,
                    first
                )
            )
        );

    private static IResult Form(HttpContext http, EntryFormModel model) =>
        Page.Show<EntryFormPage>(http, (nameof(EntryFormPage.Model), model));

    private static IResult Refused(HttpContext http, EntryFormModel model, IEnumerable<InputProblem> problems) =>
        model.Corrects is null && TapModel.Fits(model.Sheet.Schema.Name)
            ? Taps(http, model.Record, model.Sheet.Schema, model.Id, null, null, [.. problems])
            : Page.Show<EntryFormPage>(
                http,
                StatusCodes.Status422UnprocessableEntity,
                (nameof(EntryFormPage.Model), model with { Sheet = model.Sheet with { Problems = [.. problems] } })
            );

    private static EntryFormModel Blank(
        HttpContext http,
        JobRecord record,
        Schema schema,
        IIdSource ids,
        string? spot,
        string? first
    )
    {
        var now = Visit.Of(http).Reader.Now;
        // What a link knows of the reading, then what stood there lately.
        var known = schema.Fields.Aggregate(Typed.Nothing, (typed, field) =>
            http.Request.Query[Typed.NumberName(field.Name)].ToString() is { Length: > 0 } text
                ? typed.With(field, text)
                : typed
        );
        var (typed, notes) = CarriedOver.Of(record, schema, Visit.Of(http).Reader, spot, known);
        var sheet = Sheet(http, record, schema, typed) with { CarriedOver = notes };
        return new(
            record,
            sheet with
            {
                First = schema.Find(first ?? "")?.Name
                    ?? sheet
                        .Groups[0]
                        .Fields.FirstOrDefault(field =>
                            typed.Number(field.Name).Length == 0 && field.Type is FieldType.Quantity or FieldType.Number
                        )
                        ?.Name,
            },
            ids.NextId(now),
            null,
            "",
            Who(record, null),
            ""
        );
    }

    private static EntryFormModel Correcting(
        HttpContext http,
        JobRecord record,
        Schema schema,
        Entry old,
        IIdSource ids
    )
    {
        var reader = Visit.Of(http).Reader;
        return new(
            record,
            Sheet(http, record, schema, Typed.FromFields(schema, old.Fields)) with
            {
                // A look that was written down wrongly is corrected within its look.
                Offered = SignWords.GroupOf(old.Fields.Text("observation")) is { } look
                    ? new Dictionary<string, IReadOnlyList<string>> { ["observation"] = look.Seen }
                    : [],
            },
            ids.NextId(reader.Now),
            old,
            FieldText(old.ObservedAt, reader.Zone),
            old.Who,
            ""
        );
    }

    private static FormSheet Sheet(HttpContext http, JobRecord record, Schema schema, Typed typed)
    {
        var visit = Visit.Of(http);
        return new(schema, typed, visit.System)
        {
            Ghosts = LastValues(record, schema),
            LastSi = record.Journal.Last(schema.Name) is { } last
                ? schema.Fields.ToDictionary(
                    field => field.Name,
                    field => last.Fields[field.Name] is FieldValue.Quantity value ? (double?)value.Value.Si : null
                )
                : new Dictionary<string, double?>(),
            Expected = EntryExpectation.Of(record, schema.Name, visit.Reader.Now),
            Spots = CircuitMap.Spots(record.Car),
            Containers = [.. record.KitAt(visit.Reader.Now).Containers.Select(container => container.Name)],
        };
    }

    /// <summary>What stood in each field the last time, as typed.</summary>
    private static ImmutableDictionary<string, string> LastValues(JobRecord record, Schema schema)
    {
        var last = ImmutableDictionary.CreateBuilder<string, string>();
        foreach (var entry in record.Journal.OfKind(schema.Name))
        foreach (var field in schema.Fields)
            if (entry.Fields[field.Name] is { } value && field.Type is FieldType.Quantity or FieldType.Number)
                last[field.Name] = EntryWords.AsTyped(value);
        return last.ToImmutable();
    }

    private static string FieldText(DateTimeOffset moment, TimeZoneInfo zone) =>
        TimeZoneInfo.ConvertTime(moment, zone).ToString(FieldTime, CultureInfo.InvariantCulture);

    private static (DateTimeOffset? When, InputProblem? Problem) Moment(string? typed, TimeZoneInfo zone)
    {
        if (string.IsNullOrWhiteSpace(typed))
            return (null, null);
        if (!DateTime.TryParse(typed, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local))
            return (null, new("observed-at", typed, Phrase.Words("a date and a time are needed, or nothing for now")));
        var plain = DateTime.SpecifyKind(local, DateTimeKind.Unspecified);
        return zone.IsInvalidTime(plain)
            ? (
                null,
                new("observed-at", typed, Phrase.Words("that hour does not exist here: the clocks were put forward"))
            )
            : (new DateTimeOffset(plain, zone.GetUtcOffset(plain)), null);
    }
}
