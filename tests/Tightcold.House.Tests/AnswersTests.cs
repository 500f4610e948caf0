using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Tightcold.House.Tests;

/// <summary>Every answer for machines is what docs/answers.schema.json says: each command of docs/commands.md is run
/// with --json.</summary>
public sealed partial class AnswersTests : IDisposable
{
    private const string File = "docs/answers.schema.json";

    /// <summary>These answer with a file of the program, or with a line for each entry, or not at all.</summary>
    private static readonly string[] WithoutAnswer = ["job show", "job export", "serve"];

    private readonly TypedCommands commands = new();

    public void Dispose() => commands.Dispose();

    [Fact]
    public async Task Every_answer_has_names_of_one_form_and_stands_in_the_schema()
    {
        new Web.Lan.DeviceBook(commands.Folder, TimeProvider.System).Add("Ada's phone");
        var document = House.Read("docs/commands.md");
        await System.IO.File.WriteAllTextAsync(
            commands.File("points.csv"),
            DocumentTests.Fences(document).First(block => block.StartsWith("pressure_bar,", StringComparison.Ordinal)),
            TestContext.Current.CancellationToken
        );
        var described = JsonNode.Parse(House.Read(File))!["$defs"]!.AsObject();
        var (seen, wrong) = (new JsonObject(), new List<string>());
        foreach (
            var line in DocumentTests
                .Fences(document)
                .SelectMany(block => block.Split('\n'))
                .Where(line => line.StartsWith("./tightcold ", StringComparison.Ordinal))
        )
        {
            var command = Cli
                .Wiring.CommandLine.Commands.Where(path =>
                    line.StartsWith($"./tightcold {path}", StringComparison.Ordinal)
                )
                .MaxBy(path => path.Length)!;
            if (command == "serve")
                continue;
            var (code, said) = await commands.RunAsync(line.Split("  #")[0].Replace(" --json", "") + " --json");
            Assert.True(code == 0, $"{line} --json ended with {code}: {said}");
            if (WithoutAnswer.Contains(command) && !said.Contains("answer-version", StringComparison.Ordinal))
                continue;
            if (command == "man" && !said.StartsWith('{'))
                continue;
            var answer = JsonNode.Parse(said)!.AsObject();
            Assert.Equal("answer-version", answer.First().Key);
            wrong.AddRange(Names(answer).Where(name => !Kebab().IsMatch(name)).Select(name => $"{command}: {name}"));
            seen[command] = Merged(seen[command]?.DeepClone(), Shape(answer));
            wrong.AddRange(Missing(described[command], seen[command]!, command));
        }
        if (wrong.Count == 0)
            return;
        var written = Path.Combine(Path.GetTempPath(), "answers.schema.json");
        var schema = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["title"] = "Answers of tightcold --json, version 1, by command",
            ["$defs"] = seen,
        };
        await System.IO.File.WriteAllTextAsync(
            written,
            schema.ToJsonString(Indented) + "\n",
            TestContext.Current.CancellationToken
        );
        Assert.Fail($"{string.Join('\n', wrong.Take(20))}\nThe schema as seen was written to {written}");
    }

    [Fact]
    public void Every_command_that_answers_stands_in_the_schema() =>
        Assert.Empty(
            Cli.Wiring.CommandLine.Commands.Except(WithoutAnswer)
                .Except(JsonNode.Parse(House.Read(File))!["$defs"]!.AsObject().Select(property => property.Key))
        );

    private static readonly JsonSerializerOptions Indented = new()
    {
        WriteIndented = true,
        IndentSize = 1,
        NewLine = "\n",
    };

    private static IEnumerable<string> Names(JsonNode? node) =>
        node switch
        {
            JsonObject one => one.SelectMany(property => Names(property.Value).Prepend(property.Key)),
            JsonArray many => many.SelectMany(Names),
            _ => [],
        };

    /// <summary>A schema that this value meets. Anything may be null: what is not known is.</summary>
    private static JsonNode Shape(JsonNode? node) =>
        node switch
        {
            JsonObject one => new JsonObject
            {
                ["type"] = Types("object"),
                ["properties"] = new JsonObject(
                    one.Select(property => KeyValuePair.Create(property.Key, (JsonNode?)Shape(property.Value)))
                ),
            },
            JsonArray many => new JsonObject
            {
                ["type"] = Types("array"),
                ["items"] = many.Select(Shape).Aggregate((JsonNode)new JsonObject(), Merged),
            },
            null => new JsonObject { ["type"] = new JsonArray("null") },
            _ => new JsonObject
            {
                ["type"] = Types(
                    node.GetValueKind() switch
                    {
                        JsonValueKind.String => "string",
                        JsonValueKind.Number => "number",
                        _ => "boolean",
                    }
                ),
            },
        };

    private static JsonArray Types(string type) => [type, "null"];

    private static JsonNode Merged(JsonNode? one, JsonNode other)
    {
        if (one is not JsonObject a || a.Count == 0)
            return other.DeepClone();
        var b = other.AsObject();
        if (b.Count == 0)
            return a.DeepClone();
        var merged = a.DeepClone().AsObject();
        merged["type"] = new JsonArray([
            .. a["type"]!
                .AsArray()
                .Concat(b["type"]!.AsArray())
                .Select(type => type!.ToString())
                .Distinct()
                .OrderBy(type => type == "null")
                .ThenBy(type => type, StringComparer.Ordinal)
                .Select(type => (JsonNode)type),
        ]);
        foreach (var (name, shape) in b["properties"]?.AsObject() ?? [])
        {
            merged["properties"] ??= new JsonObject();
            merged["properties"]![name] = Merged(merged["properties"]![name], shape!);
        }
        if (b["items"] is { } items)
            merged["items"] = Merged(merged["items"], items);
        return merged;
    }

    /// <summary>What was seen and is not described.</summary>
    private static IEnumerable<string> Missing(JsonNode? described, JsonNode seen, string path)
    {
        var shape = seen.AsObject();
        if (shape.Count == 0)
            yield break;
        if (described?["type"] is not JsonArray types)
        {
            yield return $"{path} is not described";
            yield break;
        }
        var known = types.Select(type => type!.ToString()).Append("null").ToHashSet();
        foreach (
            var type in shape["type"]!.AsArray().Select(type => type!.ToString()).Where(type => !known.Contains(type))
        )
            yield return $"{path} is not described as {type}";
        // What a form holds already are fields of the journal's kinds; which test is advised is chance.
        if (path.EndsWith(".known", StringComparison.Ordinal))
            yield break;
        foreach (var (name, inner) in shape["properties"]?.AsObject() ?? [])
        foreach (var missing in Missing(described["properties"]?[name], inner!, $"{path}.{name}"))
            yield return missing;
        if (shape["items"] is { } items)
            foreach (var missing in Missing(described["items"], items, path + "[]"))
                yield return missing;
    }

    [GeneratedRegex("^[a-z0-9]+(-[a-z0-9]+)*$")]
    private static partial Regex Kebab();
}
