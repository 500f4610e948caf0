using System.Text.Json.Nodes;
using Spectre.Console;
using Tightcold.Storage.Safety;

namespace Tightcold.Cli.Show;

/// <summary>A check of the data, as lines and for machines.</summary>
internal static class CheckText
{
    public static string Counts(CheckReport check) =>
        $"{Count(check.Cars, "car")}, {Count(check.Jobs, "job")}, {Count(check.Entries, "entry", "entries")}";

    public static void Show(IAnsiConsole console, CheckReport check)
    {
        foreach (var sentence in check.All)
            Page.Line(console, sentence);
    }

    public static JsonObject Machine(CheckReport check, params ReadOnlySpan<(string Name, JsonNode? Value)> more)
    {
        var node = new JsonObject();
        foreach (var (name, value) in more)
            node[name] = value;
        node["cars"] = check.Cars;
        node["jobs"] = check.Jobs;
        node["entries"] = check.Entries;
        node["damage"] = List(check.Damage);
        node["unreadable"] = List(check.Unreadable);
        node["troubles"] = List(check.Troubles);
        return node;
    }

    private static JsonArray List(IEnumerable<string> sentences) =>
        new([.. sentences.Select(sentence => (JsonNode)sentence)]);

    private static string Count(int count, string one, string? many = null) =>
        $"{count} {(count == 1 ? one : many ?? one + "s")}";
}
