using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Tightcold.App.Desk;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.Jobs.Kits;

namespace Tightcold.App.Diagnosing;

/// <summary>
/// Readings without a job, as JSON: <c>{"car": {…}, "kit": {…}, "entries": [{"kind": "running-reading", "low-side": "28
/// psig", …}]}</c>. The fields are those of the journal, each a text with its unit; entries follow each other in time.
/// </summary>
public static class ReadingsFile
{
    /// <summary>Entries of a file without times are placed here, a minute apart.</summary>
    private static readonly DateTimeOffset Start = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private const int MostEntries = 200;

    /// <summary>A record to diagnose, or every reason why there is none.</summary>
    public static (JobRecord? Record, IReadOnlyList<InputProblem> Problems) Read(string json)
    {
        var (document, broken) = JsonText.Parse(json);
        if (broken is not null)
            return (null, [broken with { Field = "readings" }]);
        using var read = document!;
        var root = read.RootElement.ValueKind == JsonValueKind.Object ? JsonObject.Create(read.RootElement) : null;
        if (root is null)
            return (null, [InputProblem.Of("readings", "", $"an object with “car” and “entries” is needed here")]);
        var problems = new List<InputProblem>();
        foreach (var (name, _) in root)
            if (name is not ("car" or "kit" or "entries" or "complaint" or "seed"))
                problems.Add(
                    InputProblem.Of(name, name, $"a file of readings has car, kit, entries, complaint and seed")
                );
        var car = Bag(Car.Schema, root["car"], "car", problems, ("label", "car of these readings"));
        var kit = root["kit"] is null ? FieldBag.Empty : Bag(Kit.Schema, root["kit"], "kit", problems);
        var entries = new List<Entry>();
        if (root["entries"] is not JsonArray list || list.Count is 0 or > MostEntries)
            return (
                null,
                [.. problems, InputProblem.Of("entries", "", $"a list of 1 to {MostEntries} entries is needed here")]
            );
        for (var i = 0; i < list.Count; i++)
        {
            if (
                list[i] is not JsonObject node
                || Text(node["kind"]) is not { } kind
                || EntryKinds.Find(kind) is not { } schema
            )
            {
                problems.Add(
                    InputProblem.Of(
                        $"entries[{i}].kind",
                        Text((list[i] as JsonObject)?["kind"]) ?? "",
                        $"a kind of entry is needed here, such as running-reading, standing-reading or weather"
                    )
                );
                continue;
            }

            var fields = Bag(schema, node, $"entries[{i}]", problems, skip: "kind");
            var at = Start.AddMinutes(i);
            entries.Add(new(new Guid(i + 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1), kind, at, at, "file", fields));
        }

        var seed = root["seed"] is JsonValue value && value.TryGetValue<int>(out var given) ? given : 1;
        if (problems.Count > 0)
            return (null, problems);
        var carId = new Guid(1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 2);
        var (journal, trouble2) = Journal.Create(entries);
        return journal is null
            ? (null, trouble2)
            : (
                new(
                    new Car(carId, car),
                    [new Kit(new Guid(1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 3), Start, kit, [])],
                    new Job(
                        new Guid(1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 4),
                        carId,
                        0,
                        Text(root["complaint"]) ?? "",
                        Start,
                        seed
                    ),
                    journal
                ),
                []
            );
    }

    private static FieldBag Bag(
        Schema schema,
        JsonNode? node,
        string path,
        List<InputProblem> problems,
        (string Name, string Text)? unlessGiven = null,
        string? skip = null
    )
    {
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        if (unlessGiven is { } given)
            texts[given.Name] = given.Text;
        if (node is JsonObject fields)
        {
            foreach (var (name, value) in fields)
            {
                if (name == skip)
                    continue;
                if (Text(value) is { } text)
                    texts[name] = text;
                else
                    problems.Add(InputProblem.Of($"{path}.{name}", "", $"a text with its unit is needed here"));
            }
        }
        else
        {
            problems.Add(InputProblem.Of(path, "", $"an object of fields is needed here"));
        }

        var (bag, found) = FieldReader.Read(schema, texts, CultureInfo.InvariantCulture);
        problems.AddRange(found.Select(problem => problem with { Field = $"{path}.{problem.Field}" }));
        return bag;
    }

    private static string? Text(JsonNode? node) =>
        node is not JsonValue value ? null
        : value.TryGetValue<string>(out var text) ? text
        : value.TryGetValue<double>(out var number) ? number.ToString("R", CultureInfo.InvariantCulture)
        : null;
}
