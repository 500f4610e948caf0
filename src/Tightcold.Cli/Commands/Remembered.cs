using System.Text.Json;
using System.Text.Json.Nodes;
using Tightcold.App.Units;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands;

/// <summary>What a person chose once: <c>settings.json</c> beside the data file.</summary>
internal static class Remembered
{
    public static UnitSystem Units(string folder, string? asked)
    {
        var path = Path.Combine(folder, "settings.json");
        if (asked is null) return Read(path)?["units"]?.ToString() == "us" ? UnitSystem.Us : UnitSystem.Metric;
        var system = asked.ToLowerInvariant() switch
        {
            "metric" => UnitSystem.Metric,
            "us" => UnitSystem.Us,
            _ => throw new RefusedException("units", asked, "metric or us is allowed"),
        };
        var settings = Read(path) ?? [];
        var word = system == UnitSystem.Us ? "us" : "metric";
        if (settings["units"]?.ToString() == word) return system;
        settings["units"] = word;
        Directory.CreateDirectory(folder);
        File.WriteAllText(path, settings.ToJsonString() + "\n");
        return system;
    }

    /// <summary>Settings that cannot be read are no reason to stop working: the defaults hold.</summary>
    private static JsonObject? Read(string path)
    {
        try
        {
            return File.Exists(path) ? JsonNode.Parse(File.ReadAllText(path)) as JsonObject : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
