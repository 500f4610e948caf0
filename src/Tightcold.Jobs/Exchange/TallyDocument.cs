using System.Collections.Immutable;
using System.Text.Json.Nodes;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Json;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Exchange;

/// <summary>A tally as a file: format <c>tightcold-tally</c>, described in docs/exchange.md.</summary>
public static class TallyDocument
{
    public const string Format = "tightcold-tally";
    public const int Version = 1;

    private const int SumDigits = 64;

    /// <summary>The text up to the jobs, of which each is one more piece with a comma between.</summary>
    public static string Begin(IEnumerable<Car> cars, IEnumerable<Kit> kits) =>
        FilePieces.Begin(
            Format,
            Version,
            ("cars", cars.Select(car => (JsonNode)Of(CarVersion.Of(car)))),
            ("kits", kits.Select(kit => (JsonNode)kit.Id.ToString()))
        );

    public static string Job(TalliedJob job)
    {
        ArgumentNullException.ThrowIfNull(job);
        var node = new JsonObject { ["id"] = job.Id.ToString() };
        if (job.Kits is { } kits)
            node["kits"] = Ids(kits);
        node["sum"] = job.Sum;
        node["entries"] = Ids(job.Entries);
        node["photos"] = Ids(job.Photos);
        return JobDocument.OnOneLine(node);
    }

    public const string End = "\n]\n}\n";

    private static JsonObject Of(CarVersion car)
    {
        var node = new JsonObject { ["id"] = car.Id.ToString() };
        if (car.WrittenAt is { } moment)
            node["written-at"] = JobDocument.Stamp(moment);
        node["sum"] = car.Sum;
        return node;
    }

    private static JsonArray Ids(IEnumerable<Guid> ids) =>
        [.. ids.Select(id => id.ToString()).Order(StringComparer.Ordinal).Select(id => (JsonNode)id)];

    /// <summary>The tally, or every reason why this text is none.</summary>
    public static (Tally? Tally, IReadOnlyList<InputProblem> Problems) Read(string text)
    {
        var (document, problem) = JsonText.Parse(text);
        if (problem is not null)
            return (null, [problem]);
        using var opened = document!;
        var problems = new List<InputProblem>();
        var root = new JsonReaderAt(opened.RootElement, "$");
        if (!root.IsObject(problems))
            return (null, problems);
        if (root.Text("format", problems) is { } format && format != Format)
            problems.Add(InputProblem.Of("$.format", format, $"“{Phrase.Verbatim(Format)}” is needed"));
        if (root.Whole("version", problems) is { } version)
            FilePieces.CheckVersion(version, Version, problems);
        if (problems.Count > 0)
            return (null, problems);
        root.OnlyProperties(problems, "format", "version", "cars", "kits", "jobs");
        var cars = root.Items("cars", problems).Select(at => ReadCar(at, problems)).OfType<CarVersion>().ToList();
        var kits = ReadIds(root, "kits", problems);
        var jobs = root.Items("jobs", problems).Select(at => ReadJob(at, problems)).OfType<TalliedJob>().ToList();
        Once("$.cars", cars.Select(car => car.Id), problems);
        Once("$.jobs", jobs.Select(job => job.Id), problems);
        return problems.Count > 0 ? (null, problems) : (new(cars, kits, jobs), problems);
    }

    private static CarVersion? ReadCar(JsonReaderAt at, List<InputProblem> problems)
    {
        if (!at.IsObject(problems))
            return null;
        at.OnlyProperties(problems, "id", "written-at", "sum");
        var id = at.Id("id", problems);
        var written = at.Has("written-at") ? at.Time("written-at", problems) : null;
        return id is { } car && ReadSum(at, problems) is { } sum ? new(car, written, sum) : null;
    }

    private static TalliedJob? ReadJob(JsonReaderAt at, List<InputProblem> problems)
    {
        if (!at.IsObject(problems))
            return null;
        at.OnlyProperties(problems, "id", "kits", "sum", "entries", "photos");
        var id = at.Id("id", problems);
        var kits = at.Has("kits") ? ReadIds(at, "kits", problems) : null;
        var sum = ReadSum(at, problems);
        var entries = ReadIds(at, "entries", problems);
        var photos = ReadIds(at, "photos", problems);
        return id is { } job && sum is not null ? new(job, kits, sum, entries, photos) : null;
    }

    private static string? ReadSum(JsonReaderAt at, List<InputProblem> problems)
    {
        if (at.Text("sum", problems) is not { } sum)
            return null;
        if (sum.Length == SumDigits && sum.All(digit => digit is (>= '0' and <= '9') or (>= 'a' and <= 'f')))
            return sum;
        problems.Add(
            InputProblem.Of($"{at.Path}.sum", Quote.Beginning(sum, 40), $"{SumDigits} hexadecimal digits are needed")
        );
        return null;
    }

    private static ImmutableHashSet<Guid> ReadIds(JsonReaderAt at, string name, List<InputProblem> problems) =>
        [.. at.Items(name, problems).Select(item => item.Id(problems)).OfType<Guid>()];

    private static void Once(string path, IEnumerable<Guid> ids, List<InputProblem> problems)
    {
        foreach (var twice in ids.GroupBy(id => id).Where(group => group.Count() > 1))
            problems.Add(InputProblem.Of(path, twice.Key.ToString(), $"an id may stand only once"));
    }
}
