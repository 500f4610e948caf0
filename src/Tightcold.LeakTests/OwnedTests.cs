namespace Tightcold.LeakTests;

/// <summary>What a person writes down as the leak tests that are there, in words of their own: in any of the languages
/// that the program speaks.</summary>
public static class OwnedTests
{
    /// <summary>Beginnings of words by what a test needs; each beside the English one that the rows name.</summary>
    private static readonly Dictionary<string, string[]> Words = new(StringComparer.OrdinalIgnoreCase)
    {
        ["soap"] =
        [
            "soap",
            "bubble",
            "seife",
            "blasen",
            "jabón",
            "jabon",
            "burbuj",
            "savon",
            "bulle",
            "mydł",
            "mydl",
            "pęcherz",
        ],
        ["nitrogen"] = ["nitrogen", "stickstoff", "nitrógeno", "nitrogeno", "azote", "azot"],
        ["detector"] = ["detector", "detektor", "suchgerät", "détecteur", "detecteur", "wykrywacz"],
    };

    /// <summary>Whether the list names what a test needs; a test that needs nothing is always there.</summary>
    public static bool Have(string? owned, string? needs) =>
        needs is null
        || (
            owned is not null
            && (Words.GetValueOrDefault(needs) ?? [needs]).Any(word =>
                owned.Contains(word, StringComparison.OrdinalIgnoreCase)
            )
        );
}
