using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Nodes;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.Jobs.Kits;

namespace Tightcold.Jobs.Exchange;

/// <summary>A part of an exchange file, and where it stands there.</summary>
/// <param name="Part">Null where it is none; the problems say why.</param>
public sealed record ExchangePart<T>(string Path, T? Part, ImmutableArray<InputProblem> Problems)
    where T : class;

/// <summary>A job of an exchange file, not read yet.</summary>
/// <param name="Text">As a job file.</param>
/// <param name="Name">What it says of itself, as far as that can be read.</param>
public sealed record ExchangeJob(string Path, string Text, string Name);

/// <summary>What an exchange file holds.</summary>
/// <param name="OwnKit">Jobs for which the kits of the file's writer hold.</param>
public sealed record ExchangeFile(
    ImmutableArray<ExchangePart<Car>> Cars,
    ImmutableArray<ExchangePart<Kit>> Kits,
    ImmutableArray<ExchangeJob> Jobs,
    ImmutableHashSet<Guid> OwnKit
)
{
    /// <summary>From before cars and kits stood in it by themselves: each job is as if it came alone.</summary>
    public bool IsOld { get; init; }
}

/// <summary>Cars, kits and jobs of one store for another: format <c>tightcold-exchange</c>, described in
/// docs/exchange.md. The same file for everything and for what somebody lacks.</summary>
public static class ExchangeDocument
{
    public const string Format = "tightcold-exchange";
    public const int Version = 1;

    /// <summary>What it was before: jobs alone, each with all its kits.</summary>
    private const string OldFormat = "tightcold-jobs";

    private const int OldVersion = 2;

    /// <summary>The text up to the jobs, of which each is one more piece with a comma between.</summary>
    public static string Begin(IEnumerable<Car> cars, IEnumerable<Kit> kits) =>
        FilePieces.Begin(
            Format,
            Version,
            ("cars", cars.Select(JobDocument.WriteCar)),
            ("kits", kits.Select(JobDocument.WriteKit))
        );

    /// <summary>A job file; without kits where those of the workshop hold, which stand above.</summary>
    public static string Job(JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return JobDocument.Write(record.BringsKits ? record : record with { Kits = [] }).TrimEnd('\n');
    }

    /// <param name="ownKit">Jobs for which the workshop's own kits hold.</param>
    public static string End(IEnumerable<Guid> ownKit) =>
        $"\n],\n\"own-kit\": {FilePieces.List(ownKit.Select(id => (JsonNode)id.ToString()))}\n}}\n";

    /// <summary>What the file holds, or every reason why it is none; neither for a file of another format.</summary>
    public static (ExchangeFile? File, IReadOnlyList<InputProblem> Problems) Read(string text)
    {
        var (document, problem) = JsonText.Parse(text);
        if (problem is not null)
            return (null, [problem]);
        using var opened = document!;
        var root = new JsonReaderAt(opened.RootElement, "$");
        var problems = new List<InputProblem>();
        var format = root.Has("format") ? root.Text("format", []) : null;
        if (format is not (Format or OldFormat))
            return (null, []);
        if (root.Whole("version", problems) is { } version)
            FilePieces.CheckVersion(version, format == Format ? Version : OldVersion, problems);
        if (problems.Count > 0)
            return (null, problems);
        if (format == Format)
            root.OnlyProperties(problems, "format", "version", "cars", "kits", "jobs", "own-kit");
        else
            root.OnlyProperties(problems, "format", "version", "jobs");
        var jobs = root.Items("jobs", problems)
            .Select(at => new ExchangeJob(at.Path, at.Element.GetRawText(), Name(at)));
        var file = new ExchangeFile([], [], [.. jobs], []) { IsOld = format == OldFormat };
        if (format == Format)
            file = file with
            {
                Cars = [.. root.Items("cars", problems).Select(at => Part(at, JobDocument.ReadCar))],
                Kits = [.. root.Items("kits", problems).Select(at => Part(at, JobDocument.ReadKit))],
                OwnKit = [.. root.Items("own-kit", problems).Select(at => at.Id(problems)).OfType<Guid>()],
            };
        return problems.Count > 0 ? (null, problems) : (file, problems);
    }

    private static ExchangePart<T> Part<T>(
        JsonReaderAt at,
        Func<JsonElement, (T? Part, IReadOnlyList<InputProblem> Problems)> read
    )
        where T : class
    {
        var (part, problems) = read(at.Element);
        return new(
            at.Path,
            part,
            [.. problems.Select(problem => problem with { Field = at.Path + problem.Field.TrimStart('$') })]
        );
    }

    /// <summary>For the sentence about a job that cannot be taken in: it is named even where it cannot be
    /// read.</summary>
    private static string Name(JsonReaderAt at)
    {
        var job = at.Child("job", []);
        var name = string.Join(
            ", ",
            new[]
            {
                job?.OptionalText("complaint", []),
                at.Child("car", [])?.Child("fields", [])?.OptionalText(FieldNames.Label, []),
            }
                .OfType<string>()
                .Where(words => words.Length > 0)
                .Select(words => Quote.Beginning(words, 60))
        );
        return name.Length > 0 ? name : job?.OptionalText("id", []) ?? at.Path;
    }
}
