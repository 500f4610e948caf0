using Tightcold.App.Units;

namespace Tightcold.Cli.Commands;

/// <summary>What a person asked for now, else what was chosen once.</summary>
internal static class Remembered
{
    public static UnitSystem Units(string folder, string? asked) =>
        asked is null ? RememberedUnits.Read(folder)
        : asked == "us" ? UnitSystem.Us
        : UnitSystem.Metric;

    /// <summary>After the command went well: a refused one changes nothing, not even this.</summary>
    public static void Keep(string folder, string? asked)
    {
        if (asked is not null)
            RememberedUnits.Write(folder, Units(folder, asked));
    }
}
