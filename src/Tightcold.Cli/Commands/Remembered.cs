using Tightcold.App.Units;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

/// <summary>What a person asked for now, else what was chosen once.</summary>
internal static class Remembered
{
    private static readonly string[] Variables = ["LC_ALL", "LC_MESSAGES", "LANG"];

    public static UnitSystem Units(string folder, string? asked) =>
        asked is null ? RememberedUnits.Read(folder)
        : asked == "us" ? UnitSystem.Us
        : UnitSystem.Metric;

    /// <summary>What was asked for, else chosen once, else the terminal's.</summary>
    public static Tongue Language(string folder, string? asked, Tongue terminal) =>
        AllTongues.Named(asked) ?? RememberedUnits.Language(folder) ?? terminal;

    /// <summary>What the terminal's environment says (POSIX: the first of LC_ALL, LC_MESSAGES and LANG that is
    /// set).</summary>
    public static Tongue Terminal() =>
        AllTongues.Named(
            Variables.Select(Environment.GetEnvironmentVariable).FirstOrDefault(word => !string.IsNullOrEmpty(word))
        ) ?? AllTongues.English;

    /// <summary>After the command went well: a refused one changes nothing, not even this.</summary>
    public static void Keep(string folder, string? units, string? language)
    {
        if (units is not null)
            RememberedUnits.Write(folder, Units(folder, units));
        if (AllTongues.Named(language) is { } tongue)
            RememberedUnits.Write(folder, tongue);
    }
}
