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

    /// <summary>Kilograms in one of them; null for any other word.</summary>
    public static double? KilogramsOf(string size) => PerKg.TryGetValue(size, out var kilograms) ? kilograms : null;
}
