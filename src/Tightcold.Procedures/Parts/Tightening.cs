using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Procedures.Parts;

/// <summary>How tight, by kind of joint. Common practice throughout: the maker's figure rules wherever there is
/// one.</summary>
/// <param name="Joint">Which joint.</param>
/// <param name="LowNm">Newton metre; null where only “snug” can be said.</param>
/// <param name="HighNm">Newton metre.</param>
/// <param name="How">In a few words.</param>
public readonly record struct Tightening([Said] string Joint, double? LowNm, double? HighNm, [Said] string How)
{
    public static readonly ImmutableArray<Tightening> All =
    [
        new("tube nut, aluminium, 6 mm tube (#6)", 12, 18, "two spanners, seal oiled"),
        new("tube nut, aluminium, 10 to 12 mm tube (#8)", 20, 27, "two spanners, seal oiled"),
        new("tube nut, aluminium, 14 to 16 mm tube (#10)", 27, 34, "two spanners, seal oiled"),
        new("tube nut, aluminium, 19 mm tube (#12)", 34, 40, "two spanners, seal oiled"),
        new("block joint, M6 bolt", 8, 12, "flat faces clean, seal washer new and dry"),
        new("block joint, M8 bolt", 20, 27, "flat faces clean, seal washer new and dry"),
        new("valve core, small (as in tyres)", 0.2, 0.6, "by the core tool until it stops, no more"),
        new("valve core, large high-flow", 1.5, 3.5, "by the core tool; unsure figure"),
        new("port cap", null, null, "the cap is a seal: finger tight with its seal in place, then a nip"),
        new("any other joint", null, null, "snug; maker's figure rules"),
    ];

    /// <summary>The lines that may apply at a spot of the circuit map, most likely first.</summary>
    public static ImmutableArray<Tightening> For(string spot)
    {
        bool Is(params string[] words) => words.Any(word => spot.Contains(word, StringComparison.OrdinalIgnoreCase));
        if (Is("service valve"))
            return [All[6], All[7], All[8]];
        if (Is("expansion valve block", "joint at compressor", "condenser", "receiver", "accumulator"))
            return [All[4], All[5], All[1]];
        if (Is("liquid line"))
            return [All[0], All[4]];
        if (Is("hose", "line", "orifice"))
            return [All[1], All[2], All[5]];
        return [All[9]];
    }
}
