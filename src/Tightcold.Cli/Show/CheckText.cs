using System.Text.Json.Nodes;
using Spectre.Console;
using Tightcold.Quantities;
using Tightcold.Storage.Safety;
using Tightcold.Tongues;

namespace Tightcold.Cli.Show;

/// <summary>A check of the data, as lines and for machines.</summary>
internal static class CheckText
{
    public static string Counts(CheckReport check)
    {
        var cars = Say.Many(check.Cars, $"{check.Cars} car", $"{check.Cars} cars");
        var jobs = Say.Many(check.Jobs, $"{check.Jobs} job", $"{check.Jobs} jobs");
        var entries = Say.Many(check.Entries, $"{check.Entries} entry", $"{check.Entries} entries");
        return $"{cars}, {jobs}, {entries}";
    }

    public static void Show(IAnsiConsole console, CheckReport check)
    {
        foreach (var sentence in check.Says)
            Page.Line(console, Words.Plain(sentence));
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

    private static JsonArray List(IEnumerable<Phrase> sentences) =>
        new([.. sentences.Select(sentence => (JsonNode)sentence.ToString())]);
}
