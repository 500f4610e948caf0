using System.Globalization;
using Tightcold.App.Units;

namespace Tightcold.Pages.Asked;

/// <summary>What a device remembers of its person.</summary>
public enum Choice
{
    Units,
    Light,
    Voice,
    Language,

    /// <summary>When a copy of everything was taken last, and at which version of the data.</summary>
    Copied,
}

/// <summary>How choices are written down on a device.</summary>
public static class Choices
{
    private const string Us = "us",
        Metric = "metric";

    internal const string On = "on";

    /// <summary>The name under which a device keeps it.</summary>
    public static string Name(Choice choice) =>
        choice switch
        {
            Choice.Units => "tightcold-units",
            Choice.Light => "tightcold-light",
            Choice.Voice => "tightcold-voice",
            Choice.Language => "tightcold-language",
            _ => "tightcold-copied",
        };

    /// <summary>The units with the moment of the switch: what was typed before is shown in the units of now.</summary>
    public static string Units(string? asked, DateTimeOffset now) =>
        string.Create(CultureInfo.InvariantCulture, $"{(asked == Us ? Us : Metric)}.{now.ToUnixTimeSeconds()}");

    /// <summary>What was written down of the units; null in each where nothing was.</summary>
    public static (UnitSystem? System, DateTimeOffset? Since) Units(string? kept)
    {
        var parts = (kept ?? "").Split('.');
        UnitSystem? system = parts[0] switch
        {
            Us => UnitSystem.Us,
            Metric => UnitSystem.Metric,
            _ => null,
        };
        return (
            system,
            parts.Length == 2
            && long.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var seconds)
            && seconds < DateTimeOffset.MaxValue.ToUnixTimeSeconds()
                ? DateTimeOffset.FromUnixTimeSeconds(seconds)
                : null
        );
    }

    public static bool Voice(string? kept) => kept == On;

    /// <summary>A copy of everything, taken now.</summary>
    public static string Copied(string version, DateTimeOffset now) =>
        string.Create(CultureInfo.InvariantCulture, $"{now.ToUnixTimeSeconds()}.{version}");

    /// <summary>The last copy of everything; null where none was taken.</summary>
    public static (DateTimeOffset At, string Version)? Copied(string? kept) =>
        kept?.Split('.', 2) is [var at, var version]
        && long.TryParse(at, NumberStyles.None, CultureInfo.InvariantCulture, out var seconds)
        && seconds < DateTimeOffset.MaxValue.ToUnixTimeSeconds()
            ? (DateTimeOffset.FromUnixTimeSeconds(seconds), version)
            : null;

    /// <summary>Only a path of this site; anything else leads to the start.</summary>
    internal static string LocalPath(string? path) =>
        path is ['/', ..] && path is not ['/', '/' or '\\', ..] && !path.Any(char.IsControl) ? path : Routes.Start;
}
