namespace Tightcold.Quantities;

/// <summary>The public wall: what passes here is finite and within what the quantity can be.</summary>
internal static class Check
{
    public static double Finite(double value, string name) =>
        double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, value, "must be a finite number");

    public static double NotBelow(double value, double floor, string name) =>
        Finite(value, name) >= floor
            ? value
            : throw new ArgumentOutOfRangeException(name, value, Words($"must not be below {floor:R}"));

    public static double Between(double value, double low, double high, string name) =>
        Finite(value, name) >= low && value <= high
            ? value
            : throw new ArgumentOutOfRangeException(name, value, Words($"must be from {low:R} to {high:R}"));

    /// <summary>What a trouble says, in no culture.</summary>
    public static string Words(FormattableString words) => FormattableString.Invariant(words);
}
