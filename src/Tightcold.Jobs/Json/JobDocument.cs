using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Nodes;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Jobs.Photos;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Json;

/// <summary>A whole job as one JSON file: format <c>tightcold-job</c>, described in docs/job-file.md. Reading
/// refuses what it does not understand and names the path of the field.</summary>
public static class JobDocument
{
    public const string Format = "tightcold-job";

    /// <summary>Of a job without photos, which every program reads; with photos it is <see cref="Version"/>.</summary>
    private const int PlainVersion = 1;

    /// <summary>The newest that is read.</summary>
    public const int Version = 2;

    private static readonly JsonSerializerOptions Indented = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private static readonly JsonSerializerOptions Plain = new()
    {
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>A part of the file on one line without spaces between its parts, as sums are made over it.</summary>
    public static string OnOneLine(JsonNode part)
    {
        ArgumentNullException.ThrowIfNull(part);
        return part.ToJsonString(Plain);
    }

    public static string Write(JobRecord record)
    {
        var file = new JsonObject
        {
            ["format"] = Format,
            ["version"] = record.Photos.IsEmpty ? PlainVersion : Version,
            ["car"] = WriteCar(record.Car),
            ["kits"] = new JsonArray([.. record.Kits.Select(WriteKit)]),
            ["job"] = WriteJob(record.Job),
            ["entries"] = new JsonArray([.. record.Journal.All.Select(WriteEntry)]),
        };
        if (record.Chain.Length > 0)
            file["chain"] = new JsonArray([
                .. record.Chain.Select(link =>
                    (JsonNode)new JsonObject { ["entry"] = link.Entry.ToString(), ["digest"] = link.Digest }
                ),
            ]);
        if (record.Photos.Length > 0)
            file["photos"] = new JsonArray([.. record.Photos.Select(WritePhoto)]);
        return file.ToJsonString(Indented) + "\n";
    }

    private static JsonNode WritePhoto(Photo photo) =>
        new JsonObject
        {
            ["id"] = photo.Id.ToString(),
            ["entry"] = photo.Entry.ToString(),
            ["kept-at"] = Stamp(photo.KeptAt),
            ["jpeg"] = Convert.ToBase64String(photo.Body.AsSpan()),
        };

    public static JsonNode WriteCar(Car car) =>
        new JsonObject { ["id"] = car.Id.ToString(), ["fields"] = FieldBagJson.Write(car.Fields) };

    /// <summary>The job without its car, which stands beside it.</summary>
    public static JsonNode WriteJob(Job job) =>
        new JsonObject
        {
            ["id"] = job.Id.ToString(),
            ["number"] = job.Number,
            ["complaint"] = job.Complaint,
            ["opened-at"] = Stamp(job.OpenedAt),
            ["seed"] = job.Seed,
        };

    public static JsonNode WriteEntry(Entry entry)
    {
        var node = new JsonObject
        {
            ["id"] = entry.Id.ToString(),
            ["kind"] = entry.Kind,
            ["observed-at"] = Stamp(entry.ObservedAt),
            ["written-at"] = Stamp(entry.WrittenAt),
            ["who"] = entry.Who,
            ["fields"] = FieldBagJson.Write(entry.Fields),
        };
        if (entry.Supersedes is { } old)
            node["supersedes"] = old.ToString();
        if (entry.Reason is { } reason)
            node["reason"] = reason;
        return node;
    }

    public static JsonNode WriteKit(Kit kit) =>
        new JsonObject
        {
            ["id"] = kit.Id.ToString(),
            ["from"] = Stamp(kit.From),
            ["fields"] = FieldBagJson.Write(kit.Fields),
            ["containers"] = new JsonArray([
                .. kit.Containers.Select(container => FieldBagJson.Write(container.Fields)),
            ]),
        };

    /// <summary>The job, or every reason why this text is none. A job whose chain does not fit comes with that reason,
    /// and is not to be taken in.</summary>
    public static (JobRecord? Record, IReadOnlyList<InputProblem> Problems) Read(string text)
    {
        var problems = new List<InputProblem>();
        using var document = Parse(text, problems);
        if (document is null)
            return (null, problems);
        var root = new JsonReaderAt(document.RootElement, "$");
        if (!root.IsObject(problems))
            return (null, problems);
        if (root.Text("format", problems) is { } format && format != Format)
            problems.Add(InputProblem.Of("$.format", format, $"“{Phrase.Verbatim(Format)}” is needed"));
        if (root.Whole("version", problems) is { } version && version is not (PlainVersion or Version))
            problems.Add(
                InputProblem.Of(
                    "$.version",
                    version.ToString(System.Globalization.CultureInfo.InvariantCulture),
                    version > Version
                        ? (Phrase.Handler)(
                            $"this file was written by a newer Tightcold; this one reads version {Version}; "
                            + $"nothing was changed here"
                        )
                        : $"version {PlainVersion} or {Version} is needed"
                )
            );
        if (problems.Count > 0)
            return (null, problems);

        root.OnlyProperties(problems, "format", "version", "car", "kits", "job", "entries", "chain", "photos");
        var car = ReadCar(root.Child("car", problems), problems);
        var kits = root.Items("kits", problems).Select(item => ReadKit(item, problems)).ToImmutableArray();
        var job = ReadJob(root.Child("job", problems), car?.Id, problems);
        var entries = root.Items("entries", problems).Select(item => ReadEntry(item, problems)).ToImmutableArray();
        if (problems.Count > 0 || car is null || job is null)
            return (null, problems);
        var (journal, journalProblems) = Journal.Create(entries.OfType<Entry>());
        problems.AddRange(journalProblems.Select(problem => problem with { Field = "$.entries: " + problem.Field }));
        if (journal is null)
            return (null, problems);
        var record = new JobRecord(car, [.. kits.OfType<Kit>()], job, journal);
        if (root.Has("photos"))
            record = record with { Photos = ReadPhotos(root, journal, problems) };
        if (!root.Has("chain"))
            return (record, problems);
        record = record with
        {
            Chain = [.. root.Items("chain", problems).Select(at => ReadLink(at, problems)).OfType<ChainLink>()],
        };
        if (problems.Count == 0)
            CheckChain(record, problems);
        return (record, problems);
    }

    private static ImmutableArray<Photo> ReadPhotos(JsonReaderAt root, Journal journal, List<InputProblem> problems)
    {
        ImmutableArray<Photo> photos =
        [
            .. root.Items("photos", problems).Select(at => ReadPhoto(at, journal, problems)).OfType<Photo>(),
        ];
        if (photos.Length > Photo.MostOfAFile)
            problems.Add(
                InputProblem.Of(
                    "$.photos",
                    Phrase.Many(photos.Length, $"{photos.Length} photo", $"{photos.Length} photos"),
                    $"at most {Photo.MostOfAFile} of a job"
                )
            );
        if (photos.Select(photo => photo.Id).Distinct().Count() != photos.Length)
            problems.Add(InputProblem.Of("$.photos", Phrase.Words("an id twice"), $"each photo has its own id"));
        return photos;
    }

    /// <summary>A photo of a file is held to what a sent one is held to.</summary>
    private static Photo? ReadPhoto(JsonReaderAt at, Journal journal, List<InputProblem> problems)
    {
        if (!at.IsObject(problems))
            return null;
        at.OnlyProperties(problems, "id", "entry", "kept-at", "jpeg");
        var id = at.Id("id", problems);
        var entry = at.Id("entry", problems);
        var kept = at.Time("kept-at", problems);
        var text = at.Text("jpeg", problems);
        if (id is not { } photoId || entry is not { } entryId || kept is not { } moment || text is null)
            return null;
        if (journal.Find(entryId) is null)
            problems.Add(
                InputProblem.Of($"{at.Path}.entry", entryId.ToString(), $"the id of an entry of this file is needed")
            );
        var bytes = new byte[(text.Length * 3 / 4) + 3];
        if (!Convert.TryFromBase64String(text, bytes, out var length))
        {
            problems.Add(InputProblem.Of($"{at.Path}.jpeg", Quote.Beginning(text, 40), $"base64 is needed here"));
            return null;
        }
        var (body, problem) = Jpeg.Clean(bytes.AsSpan(0, length));
        if (problem is not null)
            problems.Add(problem with { Field = $"{at.Path}.jpeg" });
        return problem is null ? new(photoId, entryId, moment, body) : null;
    }

    private static ChainLink? ReadLink(JsonReaderAt at, List<InputProblem> problems)
    {
        if (!at.IsObject(problems))
            return null;
        at.OnlyProperties(problems, "entry", "digest");
        var entry = at.Id("entry", problems);
        var digest = at.Text("digest", problems);
        return entry is { } id && digest is not null ? new(id, digest) : null;
    }

    /// <summary>A file that carries a chain says what its entries were: each once, and as written.</summary>
    private static void CheckChain(JobRecord record, List<InputProblem> problems)
    {
        var named = record.Chain.Select(link => link.Entry).ToHashSet();
        if (named.Count != record.Chain.Length || !named.SetEquals(record.Journal.All.Select(entry => entry.Id)))
            problems.Add(
                InputProblem.Of(
                    "$.chain",
                    Phrase.Many(record.Chain.Length, $"{record.Chain.Length} link", $"{record.Chain.Length} links"),
                    $"it names each of the {record.Journal.All.Length} entries of the file once; an entry was added "
                        + $"or taken out since it was written"
                )
            );
        else if (JournalChain.Broken(record) is { } broken)
            problems.Add(
                InputProblem.Of(
                    "$.chain",
                    broken.Entry.ToString(),
                    $"this entry, or the job it belongs to, is not as it was when the file was written; ask for the "
                        + $"file again"
                )
            );
    }

    /// <summary>One entry as JSON text, as written by <see cref="WriteEntry"/>.</summary>
    public static (Entry? Entry, IReadOnlyList<InputProblem> Problems) ReadEntry(string text)
    {
        var problems = new List<InputProblem>();
        using var document = Parse(text, problems);
        var entry = document is null ? null : ReadEntry(new JsonReaderAt(document.RootElement, "$"), problems);
        return problems.Count > 0 ? (null, problems) : (entry, problems);
    }

    /// <summary>One version of the kit as JSON text, as written by <see cref="WriteKit"/>.</summary>
    public static (Kit? Kit, IReadOnlyList<InputProblem> Problems) ReadKit(string text)
    {
        var problems = new List<InputProblem>();
        using var document = Parse(text, problems);
        var kit = document is null ? null : ReadKit(new JsonReaderAt(document.RootElement, "$"), problems);
        return problems.Count > 0 ? (null, problems) : (kit, problems);
    }

    /// <summary>A car, as written by <see cref="WriteCar"/>, in a document that holds more.</summary>
    public static (Car? Car, IReadOnlyList<InputProblem> Problems) ReadCar(JsonElement at) =>
        Part(at, (here, problems) => ReadCar(here, problems));

    /// <summary>A version of the kit, as written by <see cref="WriteKit"/>, in a document that holds more.</summary>
    public static (Kit? Kit, IReadOnlyList<InputProblem> Problems) ReadKit(JsonElement at) => Part(at, ReadKit);

    /// <summary>A job, as written by <see cref="WriteJob"/>, in a document that says which car it is of.</summary>
    public static (Job? Job, IReadOnlyList<InputProblem> Problems) ReadJob(JsonElement at, Guid car) =>
        Part(at, (here, problems) => ReadJob(here, car, problems));

    /// <summary>An entry, as written by <see cref="WriteEntry"/>, in a document that holds more.</summary>
    public static (Entry? Entry, IReadOnlyList<InputProblem> Problems) ReadEntry(JsonElement at) => Part(at, ReadEntry);

    private static (T? Part, IReadOnlyList<InputProblem> Problems) Part<T>(
        JsonElement at,
        Func<JsonReaderAt, List<InputProblem>, T?> read
    )
        where T : class
    {
        var problems = new List<InputProblem>();
        var part = read(new JsonReaderAt(at, "$"), problems);
        return problems.Count > 0 ? (null, problems) : (part, problems);
    }

    /// <summary>One bag of fields as JSON text, as stored.</summary>
    public static (FieldBag? Bag, IReadOnlyList<InputProblem> Problems) ReadFields(string text, Schema schema)
    {
        var problems = new List<InputProblem>();
        using var document = Parse(text, problems);
        var bag = document is null
            ? null
            : FieldBagJson.Read(new JsonReaderAt(document.RootElement, "$"), schema, problems);
        return problems.Count > 0 ? (null, problems) : (bag, problems);
    }

    private static JsonDocument? Parse(string text, List<InputProblem> problems)
    {
        var (document, problem) = JsonText.Parse(text);
        if (problem is not null)
            problems.Add(problem);
        return document;
    }

    private static Car? ReadCar(JsonReaderAt? at, List<InputProblem> problems)
    {
        if (at is not { } here || !here.IsObject(problems))
            return null;
        here.OnlyProperties(problems, "id", "fields");
        var id = here.Id("id", problems);
        var fields = here.Child("fields", problems) is { } bag ? FieldBagJson.Read(bag, Car.Schema, problems) : null;
        return id is { } carId && fields is not null ? new Car(carId, fields) : null;
    }

    private static Kit? ReadKit(JsonReaderAt at, List<InputProblem> problems)
    {
        if (!at.IsObject(problems))
            return null;
        at.OnlyProperties(problems, "id", "from", "fields", "containers");
        var id = at.Id("id", problems);
        var from = at.Time("from", problems);
        var fields = at.Child("fields", problems) is { } bag ? FieldBagJson.Read(bag, Kit.Schema, problems) : null;
        var containers = ImmutableArray.CreateBuilder<Container>();
        foreach (var item in at.Items("containers", problems))
        {
            var known = problems.Count;
            var container = new Container(FieldBagJson.Read(item, Container.Schema, problems));
            if (problems.Count == known)
                problems.AddRange(
                    container.Check().Select(problem => problem with { Field = $"{item.Path}: {problem.Field}" })
                );
            containers.Add(container);
        }
        return id is { } kitId && from is { } moment && fields is not null
            ? new Kit(kitId, moment, fields, containers.ToImmutable())
            : null;
    }

    private static Job? ReadJob(JsonReaderAt? at, Guid? car, List<InputProblem> problems)
    {
        if (at is not { } here || !here.IsObject(problems))
            return null;
        here.OnlyProperties(problems, "id", "number", "complaint", "opened-at", "seed");
        var id = here.Id("id", problems);
        var number = here.Whole("number", problems);
        var complaint = here.Text("complaint", problems);
        var opened = here.Time("opened-at", problems);
        var seed = here.Whole("seed", problems);
        return
            id is { } jobId
            && number is { } n
            && complaint is not null
            && opened is { } moment
            && seed is { } s
            && car is { } carId
            ? new Job(jobId, carId, n, complaint, moment, s)
            : null;
    }

    private static Entry? ReadEntry(JsonReaderAt at, List<InputProblem> problems)
    {
        if (!at.IsObject(problems))
            return null;
        at.OnlyProperties(problems, "id", "kind", "observed-at", "written-at", "who", "fields", "supersedes", "reason");
        var id = at.Id("id", problems);
        var kind = at.Text(FieldNames.Kind, problems);
        var observed = at.Time("observed-at", problems);
        var written = at.Time("written-at", problems);
        var who = at.Text("who", problems);
        var supersedes = at.Has("supersedes") ? at.Id("supersedes", problems) : null;
        var reason = at.OptionalText("reason", problems);
        if (kind is null)
            return null;
        if (EntryKinds.Find(kind) is not { } schema)
        {
            problems.Add(InputProblem.Of($"{at.Path}.kind", kind, $"this kind of entry is not known here"));
            return null;
        }
        var fields = at.Child("fields", problems) is { } bag ? FieldBagJson.Read(bag, schema, problems) : null;
        return
            id is { } entryId && observed is { } seen && written is { } noted && who is not null && fields is not null
            ? new Entry(entryId, kind, seen, noted, who, fields, supersedes, reason)
            : null;
    }

    /// <summary>A moment as the file has it.</summary>
    public static string Stamp(DateTimeOffset moment) =>
        moment.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz", System.Globalization.CultureInfo.InvariantCulture);
}
