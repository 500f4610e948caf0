using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Entries;

/// <summary>What can be seen, felt, heard or tried beside the gauges, as it is written down: one observation, which
/// says by itself what was found. Those of one group exclude each other; what a sound car shows comes first.</summary>
public static class SignWords
{
    /// <param name="Name">What is looked at or tried.</param>
    /// <param name="Seen">What may be found.</param>
    public sealed record Group([Said] string Name, [Said] ImmutableArray<string> Seen);

    public const string Fan = "condenser fan";
    public const string Course = "course of the cooling";
    public const string AfterRest = "after ten minutes’ rest";
    public const string AfterStop = "right after switching off";
    public const string LowPipe = "thick pipe, by hand";
    public const string LiquidLine = "along the liquid line, by hand";
    public const string HeaterHose = "heater hose pinched off";
    public const string VentAir = "air at the vents";
    public const string Voltage = "voltage at the clutch";
    public const string ControlValve = "control valve, by scan tool";
    public const string Belt = "belt and hub";

    /// <summary>All groups, the usual ones first.</summary>
    public static ImmutableArray<Group> Groups { get; } =
    [
        new(Fan, ["fan runs", "fan runs slow or backwards", "fan stands still"]),
        new(
            Course,
            [
                "cools steadily",
                "cold, warm, cold again",
                "cold at first, warm after ten minutes",
                "cold on the road only",
            ]
        ),
        new(VentAir, ["air from the vents strong", "air from the vents weak"]),
        new("left and right vents", ["vents alike", "vents differ"]),
        new(HeaterHose, ["vent the same with the heater hose pinched", "vent colder with the heater hose pinched"]),
        new(LowPipe, ["thick pipe cold", "thick pipe not cold"]),
        new(LiquidLine, ["liquid line of one warmth", "cold behind the drier", "cold before the expansion device"]),
        new("needles", ["needles steady", "low needle swings", "both needles shake"]),
        new(
            AfterStop,
            ["both gauges draw together slowly", "high side falls fast, then slowly", "both gauges equal at once"]
        ),
        new(AfterRest, ["still warm after the rest", "cold again after the rest"]),
        new(Belt, ["belt right, hub turns", "belt slips", "hub stands still"]),
        new(Voltage, ["voltage at the plug", "no voltage at the plug"]),
        new(ControlValve, ["control valve commanded", "control valve not commanded"]),
        new("pressure sensor against gauge", ["sensor agrees with the gauge", "sensor is off the gauge"]),
        new("sight glass at lower revs", ["foam at lower revs", "no foam at lower revs"]),
        new("face of the condenser", ["condenser clean outside", "condenser dirty outside"]),
        new("engine temperature", ["engine temperature right", "engine too hot"]),
        new("inlet of the cabin air", ["no hot air at the inlet", "hot air at the inlet"]),
        new("oil", ["oil clean", "oil black", "metal in the oil"]),
    ];

    /// <summary>Every observation, in the order of the groups.</summary>
    [Said]
    public static ImmutableArray<string> All { get; } = [.. Groups.SelectMany(group => group.Seen)];

    /// <summary>The group of an observation; null for a word that is none.</summary>
    public static Group? GroupOf(string? observation) =>
        Groups.FirstOrDefault(group => observation is not null && group.Seen.Contains(observation));
}
