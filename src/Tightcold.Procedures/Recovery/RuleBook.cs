using System.Collections.Immutable;
using System.Text.Json;

namespace Tightcold.Procedures.Recovery;

/// <summary>The rules by jurisdiction, read once from the embedded file. Rules change: every answer says
/// <see cref="AlwaysSay"/>.</summary>
public static class RuleBook
{
    public const string AlwaysSay = "Rules differ by place and change: check local rules.";

    /// <summary>The key of the place that fits where nothing else does.</summary>
    public const string Elsewhere = "elsewhere";

    private static readonly string[] Levels = ["looked-up", "memory", "practice"];
    private static readonly Lazy<ImmutableArray<Jurisdiction>> Places = new(Load);

    public static ImmutableArray<Jurisdiction> All => Places.Value;

    /// <summary>The place a person named in own words; the general rules when it is not known.</summary>
    public static Jurisdiction For(string? place)
    {
        var words = (place ?? "").ToLowerInvariant().Split([' ', ',', ';', '/', '(', ')', '.'], StringSplitOptions.RemoveEmptyEntries);
        var joined = " " + string.Join(' ', words) + " ";
        return All.FirstOrDefault(known => known.Words.Any(word => joined.Contains(" " + word + " ", StringComparison.Ordinal)))
            ?? All.Single(known => known.Key == Elsewhere);
    }

    private static ImmutableArray<Jurisdiction> Load()
    {
        using var stream = typeof(RuleBook).Assembly.GetManifestResourceStream("Recovery/rules.json") ?? throw new FormatException("The file of rules is missing from the program.");
        return Read(stream);
    }

    /// <exception cref="FormatException">A field is missing or a level of sureness is unknown; names the place.</exception>
    internal static ImmutableArray<Jurisdiction> Read(Stream stream)
    {
        using var document = JsonDocument.Parse(stream);
        var places = ImmutableArray.CreateBuilder<Jurisdiction>();
        foreach (var place in document.RootElement.GetProperty("jurisdictions").EnumerateArray())
        {
            var key = Text(place, "key", "jurisdictions");
            var rules = place.GetProperty("rules").EnumerateArray().Select((rule, index) => Rule(rule, $"{key}.rules[{index.ToString(System.Globalization.CultureInfo.InvariantCulture)}]"));
            places.Add(new(key, Text(place, "name", key), [.. place.GetProperty("words").EnumerateArray().Select(word => word.GetString()!)], [.. rules]));
        }
        return places.ToImmutable();
    }

    private static RecoveryRule Rule(JsonElement rule, string at)
    {
        var sure = Text(rule, "sure", at);
        if (!Levels.Contains(sure, StringComparer.Ordinal)) throw new FormatException($"{at}: sure is “{sure}”; known are {string.Join(", ", Levels)}.");
        return new(Text(rule, "what", at), Text(rule, "paragraph", at), Text(rule, "date", at), rule.GetProperty("binds-owners").GetBoolean(), sure,
            rule.TryGetProperty("keep", out var keep) ? keep.GetString() : null);
    }

    private static string Text(JsonElement element, string name, string at) =>
        element.TryGetProperty(name, out var value) && value.GetString() is { Length: > 0 } text ? text : throw new FormatException($"{at}: {name} is missing.");
}
