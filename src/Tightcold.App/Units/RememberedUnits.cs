using System.Text.Json;
using System.Text.Json.Nodes;
using Tightcold.Tongues;

namespace Tightcold.App.Units;

/// <summary>The units and the language that a person chose last on this machine: <c>settings.json</c> beside the data file. The command
/// line and the site keep one choice of
/// units.</summary>
public static class RememberedUnits
{
    public static UnitSystem Read(string folder) =>
        Settings(folder)?["units"]?.ToString() == "us" ? UnitSystem.Us : UnitSystem.Metric;

    public static void Write(string folder, UnitSystem system)
    {
        Write(folder, "units", system == UnitSystem.Us ? "us" : "metric");
    }

    /// <summary>The language chosen by hand on this machine; null where none was.</summary>
    public static Tongue? Language(string folder) => AllTongues.Named(Settings(folder)?["language"]?.ToString());

    public static void Write(string folder, Tongue tongue)
    {
        ArgumentNullException.ThrowIfNull(tongue);
        Write(folder, "language", tongue.Name);
    }

    private static void Write(string folder, string what, string word)
    {
        var settings = Settings(folder) ?? [];
        if (settings[what]?.ToString() == word)
            return;
        settings[what] = word;
        try
        {
            Directory.CreateDirectory(folder);
            File.WriteAllText(PathIn(folder), settings.ToJsonString() + "\n");
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            // Said again next time: a disk that takes nothing keeps nobody from reading.
        }
    }

    private static string PathIn(string folder) => Path.Combine(folder, "settings.json");

    /// <summary>Settings that cannot be read are no reason to stop working: the defaults hold.</summary>
    private static JsonObject? Settings(string folder)
    {
        try
        {
            return File.Exists(PathIn(folder)) ? JsonNode.Parse(File.ReadAllText(PathIn(folder))) as JsonObject : null;
        }
        catch (Exception trouble) when (trouble is JsonException or IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
