using Tightcold.App.Units;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands;

/// <summary>What a person asked for now, else what was chosen once.</summary>
internal static class Remembered
{
    public static UnitSystem Units(string folder, string? asked)
    {
        if (asked is null)
            return RememberedUnits.Read(folder);
        var system = asked.ToLowerInvariant() switch
        {
            "metric" => UnitSystem.Metric,
            "us" => UnitSystem.Us,
            _ => throw new RefusedException("units", asked, "metric or us is allowed"),
        };
        RememberedUnits.Write(folder, system);
        return system;
    }
}
