using Tightcold.Quantities;

namespace Tightcold.Procedures.Substances;

/// <summary>A refrigerant as ISO 817 and the makers' safety sheets class it.</summary>
/// <param name="Name">Such as R-1234yf.</param>
/// <param name="SafetyClass">ISO 817: A for lower toxicity; 1 no flame, 2L slow flame, 2 and 3 faster.</param>
/// <param name="LeastFlammable">Lower limit in air, share by volume; null where it does not burn at room
/// conditions.</param>
/// <param name="Source">Of the two.</param>
public sealed record Substance(string Name, string SafetyClass, double? LeastFlammable, [Said] string Source)
{
    public bool Burns => LeastFlammable is not null;

    /// <summary>The lower limit as a person reads it, such as “6.2 %”; empty where it does not burn.</summary>
    public string LimitWords =>
        LeastFlammable is { } share
            ? (100 * share).ToString("0.0", System.Globalization.CultureInfo.InvariantCulture) + " %"
            : "";

    // Limits: R-1234yf 6.2 % by doi 10.1002/prs.10347 (read in abstract); R-152a 3.9 % by older and 4.8 % by newer
    // editions of the class list, the lower one taken; classes from memory of the list, R-1234yf and R-152a read in two
    // summaries of it.
    private static readonly Substance[] Known =
    [
        new("R-12", "A1", null, "ISO 817 (class read in a summary)"),
        new("R-134a", "A1", null, "ISO 817 (class read in a summary)"),
        new("R-1234yf", "A2L", 0.062, "ISO 817 (class read in a summary); limit by doi 10.1002/prs.10347"),
        new(
            "R-152a",
            "A2",
            0.039,
            "ISO 817 (class read in a summary); limit 3.9 % by older, 4.8 % by newer " + "editions, from memory"
        ),
        new("R-744", "A1", null, "ISO 817 (class from memory)"),
    ];

    /// <summary>Null for a mixture, an unknown gas, or a name that is not here.</summary>
    public static Substance? Of(string? name) => Known.FirstOrDefault(known => known.Name == name);

    public static IReadOnlyList<Substance> All => Known;
}
