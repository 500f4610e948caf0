using System.Collections.Immutable;
using System.Globalization;
using Tightcold.App.Desk;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Forms;
using Tightcold.Pages.Shown;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Answering;

/// <summary>Writing an entry, and correcting one.</summary>
internal sealed class EntryAnswers(JobDesk desk, FindingSource findings, IIdSource ids)
{
    /// <summary>How a browser's date-and-time field writes a moment.</summary>
    private const string FieldTime = "yyyy-MM-dd'T'HH:mm";

    private const string Here = "/jobs/{number:int}/entries";

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Here + "/new", async ask =>
                await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is { } record
                    ? Answer.Show<KindsPage>((nameof(KindsPage.Job), record.Job))
                    : new Answer.NotHere()
            ),
            PageRow.Shows(Here + "/new/{kind}", ask =>
                OfKindAsync(ask, (record, schema) => BlankAsync(ask, record, schema))
            ),
            PageRow.Takes(Here + "/new/{kind}", ask =>
                OfKindAsync(ask, (record, schema) => WriteAsync(ask, record, schema, null))
            ),
            PageRow.Shows(Here + "/{id:guid}/correct", ask =>
                OfEntryAsync(ask, (record, schema, entry) =>
                    Task.FromResult(Form(Correcting(ask, record, schema, entry)))
                )
            ),
            PageRow.Takes(Here + "/{id:guid}/correct", ask =>
                OfEntryAsync(ask, (record, schema, entry) => WriteAsync(ask, record, schema, entry))
            ),
        ];

    internal static async Task<(JobRecord Record, Entry Entry)?> FindAsync(JobDesk desk, Ask ask)
    {
        var record = await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false);
        return record?.Journal.Find(ask.Which) is { } entry ? (record, entry) : null;
    }

    /// <summary>The name that stands in new entries: the kit's owner.</summary>
    internal static string Who(JobRecord record, string? typed) =>
        string.IsNullOrWhiteSpace(typed)
            ? record.Kits.OrderBy(kit => kit.From).LastOrDefault()?.Fields.Text(FieldNames.Owner) ?? ""
            : typed.Trim();

    private async Task<Answer> OfKindAsync(Ask ask, Func<JobRecord, Schema, Task<Answer>> answer) =>
        await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is { } record
        && Writable(ask.Places["kind"]) is { } schema
            ? await answer(record, schema).ConfigureAwait(false)
            : new Answer.NotHere();

    private async Task<Answer> OfEntryAsync(Ask ask, Func<JobRecord, Schema, Entry, Task<Answer>> answer) =>
        await FindAsync(desk, ask).ConfigureAwait(false) is var (record, entry) && Writable(entry.Kind) is { } schema
            ? await answer(record, schema, entry).ConfigureAwait(false)
            : new Answer.NotHere();

    private static Schema? Writable(string kind) => kind == EntryKinds.Struck ? null : EntryKinds.Find(kind);

    private async Task<Answer> BlankAsync(Ask ask, JobRecord record, Schema schema)
    {
        if (TapModel.Fits(schema.Name))
            return Taps(ask, record, schema, ids.NextId(ask.Now), ask.Id("wrote"), ask.Word("first"), []);
        var blank = Blank(ask, record, schema);
        // What belongs to no step is not about what is to be done now.
        if (EntryKinds.StepOf(schema.Name) is null)
            return Form(blank);
        var sight = await findings.AtAGlanceAsync(desk, record, ask.Cancellation).ConfigureAwait(false);
        return Form(
            blank with
            {
                Job = new(sight, ask.Id("wrote") is { } written ? record.Journal.Find(written) : null),
            }
        );
    }

    private async Task<Answer> WriteAsync(Ask ask, JobRecord record, Schema schema, Entry? corrects)
    {
        // The tick beside a spot says both at once.
        var sent =
            schema.Name == EntryKinds.LeakCheck && ask.Field("nothing-at") is { Length: > 0 } clear
                ? new Dictionary<string, string>(ask.Sent)
                {
                    [Typed.NumberName("spot")] = clear,
                    [Typed.NumberName("outcome")] = "nothing",
                }
                : ask.Sent;
        var typed = Typed.FromSent(schema, sent);
        var zone = ask.Visit.Reader.Zone;
        var (when, whenProblem) = Moment(ask.Field("when"), zone);
        // The field shows minutes. Left as it was, the corrected entry keeps its place in the order to the second.
        if (corrects is not null && ask.Field("when") == FieldText(corrects.ObservedAt, zone))
            when = corrects.ObservedAt;
        if (ask.IsSwitch)
            typed = typed.In(schema, ask.Visit.System);
        var texts = typed.Texts(schema);
        var model = new EntryFormModel(
            record,
            EntrySheet.Of(ask.Visit, record, schema, typed),
            ask.SentId ?? ids.NextId(ask.Now),
            corrects,
            ask.Field("when"),
            ask.Sent.GetValueOrDefault("who", ""),
            ask.Sent.GetValueOrDefault("reason", "")
        );
        if (ask.IsSwitch)
            return Form(model);
        if (whenProblem is not null)
            return Refused(ask, model, [whenProblem]);
        // Kept in a browser without network: how long ago it was sent first. A phone's clock may run wrong, its
        // difference does not.
        var (waited, waitProblem) = Waited.Since(ask.Field(SentForm.Ago), ask.Now);
        if (waitProblem is not null)
            return Refused(ask, model, [waitProblem]);
        when ??= waited;
        if (record.Journal.Find(model.Id) is { } there)
        {
            // The same form sent twice: it is written already. Another content under the same id is the form reached
            // again by the back button: a new entry.
            if (
                there.Kind == schema.Name
                && FieldReader.Read(schema, texts, Say.Tongue.Culture).Bag.Equals(there.Fields)
            )
                return Answer.Go(Read(record.Job, there));
            model = model with { Id = ids.NextId(ask.Now) };
        }
        var (bag, unread) = FieldReader.Read(schema, texts, Say.Tongue.Culture);
        if (unread.Count == 0)
        {
            var doubts = Unlikely.Of(schema, bag);
            var asked = corrects is null ? Asked(record, schema, bag, when ?? ask.Now) : null;
            if (EntryFormModel.Key(doubts, asked) is { Length: > 0 } key && ask.Field("really") != key)
                return Answer.Refuse<EntryFormPage>(
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
                ask.Cancellation
            )
            .ConfigureAwait(false);
        return !outcome.Taken ? Refused(ask, model, outcome.Problems)
            : corrects is null
                ? Answer.Go(await OnwardAsync(record, outcome.Value, ask.Cancellation).ConfigureAwait(false))
            : Answer.Go(Read(record.Job, outcome.Value));
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
    private async Task<string> OnwardAsync(JobRecord before, Entry written, CancellationToken cancellation)
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

    private static Answer Taps(
        Ask ask,
        JobRecord record,
        Schema schema,
        Guid id,
        Guid? wrote,
        string? first,
        ImmutableArray<InputProblem> problems
    ) =>
        Answer.Show<TapPage>(
            problems.Length > 0,
            (
                nameof(TapPage.Model),
                new TapModel(
                    record,
                    EntrySheet.Of(ask.Visit, record, schema, Typed.Nothing) with
                    {
                        Problems = problems,
                    },
                    id,
                    wrote is { } written ? record.Journal.Find(written) : null,
                    first
                )
            )
        );

    private static Answer Form(EntryFormModel model) =>
        Answer.Show<EntryFormPage>((nameof(EntryFormPage.Model), model));

    private static Answer Refused(Ask ask, EntryFormModel model, IEnumerable<InputProblem> problems) =>
        model.Corrects is null && TapModel.Fits(model.Sheet.Schema.Name)
            ? Taps(ask, model.Record, model.Sheet.Schema, model.Id, null, null, [.. problems])
            : Answer.Refuse<EntryFormPage>(
                (nameof(EntryFormPage.Model), model with { Sheet = model.Sheet with { Problems = [.. problems] } })
            );

    private EntryFormModel Blank(Ask ask, JobRecord record, Schema schema)
    {
        // What a link knows of the reading, then what stood there lately.
        var known = schema.Fields.Aggregate(Typed.Nothing, (typed, field) =>
            ask.Word(Typed.NumberName(field.Name)) is { } text ? typed.With(field, text) : typed
        );
        var (typed, notes) = CarriedOver.Of(record, schema, ask.Visit, ask.Word("spot"), known);
        var sheet = EntrySheet.Of(ask.Visit, record, schema, typed) with { CarriedOver = notes };
        return new(
            record,
            sheet with
            {
                First = schema.Find(ask.Word("first") ?? "")?.Name
                    ?? sheet
                        .Groups[0]
                        .Fields.FirstOrDefault(field =>
                            typed.Number(field.Name).Length == 0 && field.Type is FieldType.Quantity or FieldType.Number
                        )
                        ?.Name,
            },
            ids.NextId(ask.Now),
            null,
            "",
            Who(record, null),
            ""
        );
    }

    private EntryFormModel Correcting(Ask ask, JobRecord record, Schema schema, Entry old) =>
        new(
            record,
            EntrySheet.Of(ask.Visit, record, schema, Typed.FromFields(schema, old.Fields)) with
            {
                // A look that was written down wrongly is corrected within its look.
                Offered = SignWords.GroupOf(old.Fields.Text(FieldNames.Observation)) is { } look
                    ? new Dictionary<string, IReadOnlyList<string>> { ["observation"] = look.Seen }
                    : [],
            },
            ids.NextId(ask.Now),
            old,
            FieldText(old.ObservedAt, ask.Visit.Reader.Zone),
            old.Who,
            ""
        );

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
