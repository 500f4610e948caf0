using Tightcold.Quantities;

namespace Tightcold.Pages.Shown;

/// <summary>What the price of a refrigerant may be said for.</summary>
internal static class PriceSizes
{
    private static readonly Dictionary<string, double> PerKg = new(StringComparer.Ordinal)
    {
        ["kg"] = 1,
        ["lb"] = 0.45359237,
        ["can of 12 oz"] = 12 * 0.45359237 / 16,
    };

    public static IEnumerable<string> All => PerKg.Keys;

    /// <summary>What a person reads for one of them.</summary>
    [Said]
    public static string Label(string size) =>
        size switch
        {
            "kg" => "a kg",
            "lb" => "a lb",
            "can of 12 oz" => "a can of 12 oz",
            _ => size,
        };

    /// <summary>Kilograms in one of them; null for any other word.</summary>
    public static double? KilogramsOf(string size) => PerKg.TryGetValue(size, out var kilograms) ? kilograms : null;
}
