using System.Collections.Immutable;

namespace Tightcold.Tongues;

/// <summary>The languages there are. A new one is a line here and a file in Catalogues.</summary>
public static class AllTongues
{
    /// <summary>The plural rules are those of the Unicode CLDR, language plural rules, for whole numbers.</summary>
    public static Tongue English { get; } = new("en", "English", OneOrMore, ".", ",", false, () => Catalogue.Empty);

    public static ImmutableArray<Tongue> All { get; } =
    [
        English,
        new("de", "Deutsch", OneOrMore, ",", "\u202f", true, () => Catalogue.Shipped("de")),
        new("es", "Español", OneOrMore, ",", "\u00a0", false, () => Catalogue.Shipped("es")),
        new("fr", "Français", count => count <= 1 ? 0 : 1, ",", "\u202f", false, () => Catalogue.Shipped("fr")),
        new("pl", "Polski", Polish, ",", "\u00a0", false, () => Catalogue.Shipped("pl")),
    ];

    /// <summary>Named <c>qps</c>, as RFC 5646 keeps such names for private use; offered to nobody.</summary>
    internal static Tongue Pseudo { get; } =
        new("qps", "⟦ ⟧", OneOrMore, ".", ",", false, () => new PseudoCatalogue(Catalogue.Shipped("de")));

    /// <summary>The language of a name such as <c>de</c>, <c>de-AT</c> or <c>pl_PL.UTF-8</c>; null where there is
    /// none.</summary>
    public static Tongue? Named(string? name)
    {
        var first = (name ?? "").Trim().Split('-', '_', '.', ';')[0];
        return All.Append(Pseudo)
            .FirstOrDefault(tongue => string.Equals(tongue.Name, first, StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>The best of what a browser wishes, RFC 9110 §12.5.4: <c>de-AT, de;q=0.9, en;q=0.5</c>. English where it
    /// wishes none that there is.</summary>
    public static Tongue Wished(string? wishes) =>
        (wishes ?? "")
            .Split(',')
            .Select(wish => (Tongue: Named(wish), Weight: Weight(wish)))
            .Where(wish => wish.Tongue is not null && wish.Weight > 0)
            .OrderByDescending(wish => wish.Weight)
            .Select(wish => wish.Tongue)
            .FirstOrDefault()
        ?? English;

    private static double Weight(string wish)
    {
        var at = wish.IndexOf("q=", StringComparison.OrdinalIgnoreCase);
        return at < 0 ? 1
            : double.TryParse(
                wish[(at + 2)..].Trim(),
                System.Globalization.NumberStyles.AllowDecimalPoint,
                System.Globalization.CultureInfo.InvariantCulture,
                out var weight
            )
                ? weight
            : 0;
    }

    private static int OneOrMore(long count) => count == 1 ? 0 : 1;

    private static int Polish(long count) =>
        count == 1 ? 0
        : count % 10 is >= 2 and <= 4 && count % 100 is not (>= 12 and <= 14) ? 1
        : 2;
}
