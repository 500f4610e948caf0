using System.Collections.Immutable;
using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Primitives;
using Tightcold.App.Desk;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Quantities;
using Tightcold.Web.Forms;
using Tightcold.Web.Http;

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
                FindingSource findings,
                IIdSource ids,
                int number,
                string kind,
                string? spot,
                string? first,
                Guid? wrote,
                CancellationToken cancellation
            ) =>
            {
                if (
                    await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record
                    || Writable(kind) is not { } schema
                )
                    return Results.NotFound();
                if (TapModel.Fits(kind))
                    return Taps(http, record, schema, ids.NextId(Visit.Of(http).Reader.Now), wrote, first, []);
                var blank = Blank(http, record, schema, ids, spot, first);
                // What belongs to no step is not about what is to be done now.
                if (EntryKinds.StepOf(kind) is null)
                    return Form(http, blank);
                var sight = await findings.AtAGlanceAsync(desk, record, cancellation).ConfigureAwait(false);
                return Form(
                    http,
                    blank with
                    {
                        Job = new(sight, wrote is { } written ? record.Journal.Find(written) : null),
                    }
                );
            }
        );
        entries.MapPost(
            "/new/{kind}",
            async (
                HttpContext http,
                JobDesk desk,
                FindingSource findings,
                IIdSource ids,
                int number,
                string kind,
                CancellationToken cancellation
            ) =>
                await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                && Writable(kind) is { } schema
                    ? await WriteAsync(http, desk, findings, ids, record, schema, null, cancellation)
                        .ConfigureAwait(false)
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
                FindingSource findings,
                IIdSource ids,
                int number,
                Guid id,
                CancellationToken cancellation
            ) =>
                await FindAsync(desk, number, id, cancellation).ConfigureAwait(false) is ({ } record, { } entry)
                && Writable(entry.Kind) is { } schema
                    ? await WriteAsync(http, desk, findings, ids, record, schema, entry, cancellation)
                        .ConfigureAwait(false)
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
            ? record.Kits.OrderBy(kit => kit.From).LastOrDefault()?.Fields.Text(FieldNames.Owner) ?? ""
            : typed.Trim();

    private static Schema? Writable(string kind) => kind == EntryKinds.Struck ? null : EntryKinds.Find(kind);

    private static async Task<IResult> WriteAsync(
        HttpContext http,
        JobDesk desk,
        FindingSource findings,
        IIdSource ids,
        JobRecord record,
        Schema schema,
        Entry? corrects,
        CancellationToken cancellation
    )
    {
        var isSwitch = UnitChoice.IsSwitch(http);
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        // The tick beside a spot says both at once.
        if (schema.Name == EntryKinds.LeakCheck && form["nothing-at"].ToString() is { Length: > 0 } clear)
            form = new FormCollection(
                new Dictionary<string, StringValues>(form, StringComparer.Ordinal)
                {
                    [Typed.NumberName("spot")] = clear,
                    [Typed.NumberName("outcome")] = "nothing",
                }
            );
        var typed = Typed.FromPost(schema, form);
        var zone = Visit.Of(http).Reader.Zone;
        var (when, whenProblem) = Moment(form["when"], zone);
        // The field shows minutes. Left as it was, the corrected entry keeps its place in the order to the second.
        if (corrects is not null && form["when"] == FieldText(corrects.ObservedAt, zone))
            when = corrects.ObservedAt;
        if (isSwitch)
            typed = typed.In(schema, Visit.Of(http).System);
        var texts = typed.Texts(schema);
        var model = new EntryFormModel(
            record,
            EntrySheet.Of(Visit.Of(http), record, schema, typed),
            Guid.TryParse(form["id"], out var id) ? id : ids.NextId(Visit.Of(http).Reader.Now),
            corrects,
            form["when"].ToString(),
            form["who"].ToString(),
            form["reason"].ToString()
        );
        if (isSwitch)
            return Form(http, model);
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
                return Page.Go(Read(record.Job, there));
            model = model with { Id = ids.NextId(Visit.Of(http).Reader.Now) };
        }
        var (bag, unread) = FieldReader.Read(schema, texts, CultureInfo.InvariantCulture);
        if (unread.Count == 0)
        {
            var doubts = Unlikely.Of(schema, bag);
            var asked = corrects is null ? Asked(record, schema, bag, when ?? Visit.Of(http).Reader.Now) : null;
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
        return !outcome.Taken ? Refused(http, model, outcome.Problems)
            : corrects is null
                ? Page.Go(await OnwardAsync(desk, findings, record, outcome.Value, cancellation).ConfigureAwait(false))
            : Page.Go(Read(record.Job, outcome.Value));
    }

    private static Phrase? Asked(JobRecord record, Schema schema, FieldBag bag, DateTimeOffset moment)
    {
        var picture = new JobPicture(record);
        return AskBack.Of(picture, schema.Name, bag) ?? AskBack.AtTheScale(picture, schema.Name, bag, moment);
    }

    /// <summary>Where an entry is read back.</summary>
    private static string Read(Job job, Entry entry) =>
        (entry is { Kind: EntryKinds.Sign, Supersedes: null } ? Routes.NewEntry(job, entry.Kind) : Routes.Job(job))
        + $"?wrote={entry.Id}";

    /// <summary>The next number by itself: who wrote down what was to be written now comes to the form of what is to be
    /// written next. What can hurt, what has no form, and what was written out of turn leads to the page of
    /// now; signs are tapped several in a row.</summary>
    private static async Task<string> OnwardAsync(
        JobDesk desk,
        FindingSource findings,
        JobRecord before,
        Entry written,
        CancellationToken cancellation
    )
    {
        var job = before.Job;
        if (
            written.Kind is EntryKinds.ContainerMoved or EntryKinds.ScaleReading
            && await desk.RecordAsync(job.Number, cancellation).ConfigureAwait(false) is { State: "open" }
        )
            return $"{Routes.WeighIn(job)}?wrote={written.Id}";
        if (EntryKinds.StepOf(written.Kind) is null)
            return Read(job, written);
        if (written.Kind == EntryKinds.LeakCheck)
            return SearchModel.Onward(before.Car, job, written);
        var stood = (await findings.AtAGlanceAsync(desk, before, cancellation).ConfigureAwait(false)).Picture;
        // Soaped all round and nothing showed: the gauge tells once more before the nitrogen is let out.
        if (
            written.Kind == EntryKinds.LeakSearch
            && stood.Timeline.Now.Inside == Inside.Nitrogen
            && string.IsNullOrEmpty(written.Fields.Text(FieldNames.Showed))
        )
            return Routes.Nitrogen(job, written.Id);
        var was = stood.Now;
        if (
            // Nitrogen goes in out of turn, and asks for soap at once.
            (was.EntryKind != written.Kind && written.Kind != EntryKinds.PressureTest)
            || await desk.RecordAsync(job.Number, cancellation).ConfigureAwait(false) is not { } record
        )
            return Read(job, written);
        var now = (await findings.AtAGlanceAsync(desk, record, cancellation).ConfigureAwait(false)).Picture;
        return
            NowWords.Of(now) is { IsUrgent: false, Action: { EntryKind: not (null or EntryKinds.JobState) } action }
            && (was.EntryKind == written.Kind || action.EntryKind == EntryKinds.LeakCheck)
            ? Routes.Write(job, action, written.Id)
            : Read(job, written);
    }

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
                    EntrySheet.Of(Visit.Of(http), record, schema, Typed.Nothing) with
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
        var (typed, notes) = CarriedOver.Of(record, schema, Visit.Of(http), spot, known);
        var sheet = EntrySheet.Of(Visit.Of(http), record, schema, typed) with { CarriedOver = notes };
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
            EntrySheet.Of(Visit.Of(http), record, schema, Typed.FromFields(schema, old.Fields)) with
            {
                // A look that was written down wrongly is corrected within its look.
                Offered = SignWords.GroupOf(old.Fields.Text(FieldNames.Observation)) is { } look
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
