using System.Buffers.Binary;
using System.Collections.Immutable;
using Tightcold.App.Desk;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.LeakTests;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Forms;
using Tightcold.Pages.Shown;
using Tightcold.Picture;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Answering;

/// <summary>What was done at one spot, written down in one go.</summary>
internal sealed class MendAnswers(JobDesk desk, FindingSource findings, IIdSource ids)
{
    private const string Here = "/jobs/{number:int}/mend";

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Here, ask => ShowAsync(ask.Number, ask)),
            PageRow.Takes(Here, ask => SaveAsync(ask.Number, ask)),
        ];

    public async Task<Answer> ShowAsync(int number, Ask ask)
    {
        if (await desk.RecordAsync(number, ask.Cancellation).ConfigureAwait(false) is not { } record)
            return new Answer.NotHere();
        var job = new JobModel(
            await findings.AtAGlanceAsync(desk, record, ask.Cancellation).ConfigureAwait(false),
            ask.Id("wrote") is { } written ? record.Journal.Find(written) : null
        );
        return Show(Blank(ask.Visit, job, ids.NextId(ask.Visit.Reader.Now), ask.Word("spot")));
    }

    private static MendModel Blank(Visit visit, JobModel job, Guid id, string? spot)
    {
        var schema = EntryKinds.Get(EntryKinds.OilMoved);
        var (typed, notes) = CarriedOver.Of(job.Record, schema, visit, null, Typed.Nothing);
        var model = new MendModel(
            job,
            EntrySheet.Of(visit, job.Record, schema, typed) with
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

    public async Task<Answer> SaveAsync(int number, Ask ask)
    {
        if (await desk.RecordAsync(number, ask.Cancellation).ConfigureAwait(false) is not { } record)
            return new Answer.NotHere();
        var visit = ask.Visit;
        var isSwitch = ask.Field("units").Length > 0;
        var schema = EntryKinds.Get(EntryKinds.OilMoved);
        var typed = Typed.FromSent(schema, ask.Sent);
        var model = new MendModel(
            new(await findings.AtAGlanceAsync(desk, record, ask.Cancellation).ConfigureAwait(false), null),
            EntrySheet.Of(visit, record, schema, isSwitch ? typed.In(schema, visit.System) : typed),
            Guid.TryParse(ask.Field("id"), out var id) ? id : ids.NextId(visit.Reader.Now),
            ask.Field("spot"),
            [
                .. MendModel
                    .Seals.Select(seal => seal.Name)
                    .Append(MendModel.DrierTick)
                    .Where(name => ask.Field(name) == "yes"),
            ]
        )
        {
            Then = ask.Field("then"),
        };
        if (isSwitch)
            return Show(model);
        var (when, problem) = Waited.Since(ask.Field("ago"), visit.Reader.Now);
        if (problem is not null)
            return Show(model with { Problems = [problem] });
        var entries = model.Entries(model.Then).ToArray();
        if (entries.Length == 0)
            // Sent again, it may be written already and the circuit closed since.
            return record.Journal.Find(Numbered(model.Id, 0)) is { } there
                ? Answer.Go($"{Routes.Job(record.Job)}?wrote={there.Id}")
                : Show(
                    model with
                    {
                        Problems = [new("what", "", Phrase.Words("tick what was done, or write down the oil"))],
                    }
                );
        var refused = Unread(entries);
        if (refused.Length > 0)
            return Show(model with { Problems = refused });
        var asks = model with { Asked = Asked(record, entries) };
        if (asks.Asked.Length > 0 && ask.Field("really") != asks.Really)
            return Show(asks);
        // Another content under the same id is the sheet reached again by the back button: a new one.
        if (entries.Where((entry, i) => IsAnother(record.Journal.Find(Numbered(model.Id, i)), entry)).Any())
            model = model with { Id = ids.NextId(visit.Reader.Now) };
        Entry? last = null;
        for (var i = 0; i < entries.Length; i++)
        {
            last = record.Journal.Find(Numbered(model.Id, i));
            if (last is not null)
                continue;
            var outcome = await desk.AddEntryAsync(
                    record.Job.Number,
                    entries[i].Kind,
                    entries[i].Fields,
                    when,
                    EntryAnswers.Who(record, null),
                    id: Numbered(model.Id, i),
                    cancellation: ask.Cancellation
                )
                .ConfigureAwait(false);
            if (!outcome.Taken)
                return Show(model with { Problems = [.. outcome.Problems] });
            last = outcome.Value;
        }
        return Answer.Go(Onward(record, model, last!));
    }

    /// <summary>Opened: the sheet again, for what is done next. Mended: to the spot on the search where the kit can
    /// bring it to pressure, else to the page of now.</summary>
    private static string Onward(JobRecord record, MendModel model, Entry last) =>
        model.Then == "opened" ? Routes.Mend(record.Job, model.Spot, last.Id)
        : model.Then == "open" && model.Open.Length > 0 ? $"{Routes.Job(record.Job)}?wrote={last.Id}"
        : OwnedTests.Have(record.Kit.Fields.Text(FieldNames.LeakTests), "nitrogen")
        && !model.Job.Sight.Picture.Timeline.Now.HoldsRefrigerant
            ? Routes.Searched(record.Job, model.Spot, last.Id)
        : $"{Routes.Job(record.Job)}?wrote={last.Id}";

    private static bool IsAnother(Entry? there, (string Kind, ImmutableDictionary<string, string> Fields) entry) =>
        there is not null
        && (
            there.Kind != entry.Kind
            || !FieldReader.Read(EntryKinds.Get(entry.Kind), entry.Fields, Say.Tongue.Culture).Bag.Equals(there.Fields)
        );

    private static ImmutableArray<InputProblem> Unread(
        IEnumerable<(string Kind, ImmutableDictionary<string, string> Fields)> entries
    ) =>
        [
            .. entries
                .SelectMany(entry =>
                    FieldReader.Read(EntryKinds.Get(entry.Kind), entry.Fields, Say.Tongue.Culture).Problems
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
            var bag = FieldReader.Read(schema, fields, Say.Tongue.Culture).Bag;
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

    private static Answer Show(MendModel model) =>
        model.Problems.IsEmpty && model.Asked.IsEmpty
            ? Answer.Show<MendPage>((nameof(MendPage.Model), model))
            : Answer.Refuse<MendPage>((nameof(MendPage.Model), model));
}
