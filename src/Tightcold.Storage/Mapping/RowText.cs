using System.Text.Encodings.Web;
using System.Text.Json;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.Storage.Mapping;

/// <summary>Rows to nouns and back, through the documented JSON.</summary>
internal static class RowText
{
    private static readonly JsonSerializerOptions Plain = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static CarRow Row(Car car)
    {
        var row = new CarRow
        {
            Id = car.Id,
            FieldsJson = Fields(car.Fields),
            LabelKey = LabelKey(car.Label),
        };
        row.Digest = RowSum.Of(row);
        return row;
    }

    public static KitRow Row(Kit kit)
    {
        var row = new KitRow
        {
            Id = kit.Id,
            FromTime = kit.From,
            BodyJson = Body(kit),
        };
        row.Digest = RowSum.Of(row);
        return row;
    }

    public static JobKitRow Row(Guid jobId, Kit kit)
    {
        var row = new JobKitRow
        {
            JobId = jobId,
            KitId = kit.Id,
            BodyJson = Body(kit),
        };
        row.Digest = RowSum.Of(row);
        return row;
    }

    /// <summary>A space for a car without a name: an empty key means that it is still to be made.</summary>
    public static string LabelKey(string label) => SearchKey.Of(label) is { Length: > 0 } key ? key : " ";

    public static Car Car(CarRow row) =>
        new(
            row.Id,
            Read(JobDocument.ReadFields(row.FieldsJson, Jobs.Cars.Car.Schema), why =>
                Phrase.Of($"The car {row.Id.ToString()} in the data file cannot be read ({why}) Nothing was changed.")
            )
        );

    private static string Body(Kit kit) => JobDocument.WriteKit(kit).ToJsonString(Plain);

    public static Kit Kit(string body, Guid id) =>
        Read(JobDocument.ReadKit(body), why =>
            Phrase.Of($"The kit {id.ToString()} in the data file cannot be read ({why}) Nothing was changed.")
        );

    public static JobRow Row(Job job, DateTimeOffset? kitsSince)
    {
        var row = new JobRow
        {
            Id = job.Id,
            CarId = job.CarId,
            Number = job.Number,
            Complaint = job.Complaint,
            OpenedAt = job.OpenedAt,
            Seed = job.Seed,
            KitsSince = kitsSince,
        };
        row.Digest = RowSum.Of(row);
        return row;
    }

    public static Job Job(JobRow row) => new(row.Id, row.CarId, row.Number, row.Complaint, row.OpenedAt, row.Seed);

    public static EntryRow Row(Guid jobId, Entry entry) =>
        new()
        {
            Id = entry.Id,
            JobId = jobId,
            Kind = entry.Kind,
            ObservedAt = entry.ObservedAt,
            WrittenAt = entry.WrittenAt,
            Who = entry.Who,
            Supersedes = entry.Supersedes,
            Reason = entry.Reason,
            FieldsJson = Fields(entry.Fields),
        };

    public static Entry Entry(EntryRow row)
    {
        if (EntryKinds.Find(row.Kind) is not { } schema)
            throw new StoreException(
                Phrase.Of(
                    $"The entry {row.Id.ToString()} in the data file is of a kind unknown here (“{Phrase.Verbatim(row.Kind)}”); a newer "
                        + $"Tightcold wrote it. Nothing was changed."
                )
            );
        var fields = Read(JobDocument.ReadFields(row.FieldsJson, schema), why =>
            Phrase.Of($"The entry {row.Id.ToString()} in the data file cannot be read ({why}) Nothing was changed.")
        );
        return new Entry(row.Id, row.Kind, row.ObservedAt, row.WrittenAt, row.Who, fields, row.Supersedes, row.Reason);
    }

    /// <summary>What a note says; read loosely, for a search.</summary>
    public static string? NoteText(string fieldsJson)
    {
        using var fields = JsonDocument.Parse(fieldsJson);
        return
            fields.RootElement.ValueKind == JsonValueKind.Object
            && fields.RootElement.TryGetProperty("text", out var text)
            && text.ValueKind == JsonValueKind.String
            ? text.GetString()
            : null;
    }

    private static string Fields(FieldBag bag) => FieldBagJson.Write(bag).ToJsonString(Plain);

    /// <param name="cannot">What is said with the first reason.</param>
    private static T Read<T>((T? Value, IReadOnlyList<InputProblem> Problems) read, Func<Phrase, Phrase> cannot)
        where T : class => read.Value ?? throw new StoreException(cannot(read.Problems[0].Sentence));
}
