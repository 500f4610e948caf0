using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Tightcold.Quantities;

namespace Tightcold.Procedures.Rules;

/// <summary>Reads one file of the book; a line that lacks something is refused by name.</summary>
internal static class BookReader
{
    private const int Format = 2;

    private static readonly FrozenDictionary<string, Question> Questions = new Dictionary<string, Question>
    {
        ["buy"] = Question.Buy,
        ["own"] = Question.Own,
        ["charge"] = Question.Charge,
        ["recover"] = Question.Recover,
        ["vent"] = Question.Vent,
        ["top-up"] = Question.TopUp,
        ["cans"] = Question.Cans,
        ["leak-check"] = Question.LeakCheck,
        ["records"] = Question.Records,
        ["cylinder"] = Question.Cylinder,
        ["equipment"] = Question.Equipment,
        ["warming"] = Question.Warming,
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, Who> Persons = new Dictionary<string, Who>
    {
        ["everybody"] = Who.NotSaid,
        ["owner"] = Who.Owner,
        ["for-pay"] = Who.ForPay,
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, Ruling> Rulings = new Dictionary<string, Ruling>
    {
        ["fact"] = Ruling.Fact,
        ["allowed"] = Ruling.Allowed,
        ["duty"] = Ruling.Duty,
        ["not-known"] = Ruling.NotKnown,
        ["qualified"] = Ruling.Qualified,
        ["forbidden"] = Ruling.Forbidden,
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, Sureness> Levels = new Dictionary<string, Sureness>
    {
        ["text"] = Sureness.Text,
        ["summary"] = Sureness.Summary,
        ["memory"] = Sureness.Memory,
        ["practice"] = Sureness.Practice,
        ["not-read"] = Sureness.NotRead,
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, RecordItem> Items = new Dictionary<string, RecordItem>
    {
        ["date"] = RecordItem.Date,
        ["person"] = RecordItem.Person,
        ["certificate"] = RecordItem.Certificate,
        ["car"] = RecordItem.Car,
        ["owner"] = RecordItem.Owner,
        ["refrigerant"] = RecordItem.Refrigerant,
        ["recovered"] = RecordItem.Recovered,
        ["charged"] = RecordItem.Charged,
        ["leak-check"] = RecordItem.LeakCheck,
        ["cylinder"] = RecordItem.Cylinder,
        ["went-to"] = RecordItem.WentTo,
        ["bought"] = RecordItem.Bought,
    }.ToFrozenDictionary();

    /// <exception cref="FormatException">Names the file, the line and the field.</exception>
    public static Book Read(Stream stream, string key)
    {
        using var document = JsonDocument.Parse(stream);
        var root = document.RootElement;
        if (!root.TryGetProperty("format", out var format) || format.GetInt32() != Format)
            throw new FormatException($"{key}: format {Format.ToString(CultureInfo.InvariantCulture)} is needed.");
        var read = Needed(root, "read", key);
        var lines = root.GetProperty("lines")
            .EnumerateArray()
            .Select((line, index) => Line(line, read, $"{key}.lines[{index.ToString(CultureInfo.InvariantCulture)}]"));
        return new(
            key,
            Needed(root, "name", key),
            Words(root, "covers"),
            Optional(root, "under") is { Length: > 0 } under ? under : null,
            Needed(root, "authority", key),
            [.. lines]
        );
    }

    private static RuleLine Line(JsonElement line, string read, string at)
    {
        var ruling = OneOf(line, "is", Rulings, at);
        var sure = OneOf(line, "sure", Levels, at);
        var open = ruling == Ruling.NotKnown;
        if (sure == Sureness.NotRead && !open)
            throw new FormatException($"{at}: what was not read is not known.");
        var says = Needed(line, "says", at);
        if (says.Length > RuleLine.LongestLine)
            throw new FormatException(
                $"{at}: says has {says.Length.ToString(CultureInfo.InvariantCulture)} "
                    + $"letters; {RuleLine.LongestLine.ToString(CultureInfo.InvariantCulture)} at most."
            );
        var (figures, report) = (Figures(line), Optional(line, "report"));
        if (figures.Count > 0 && WarmingFigure.Name(report) is null)
            throw new FormatException($"{at}: report is “{report}”; figures stand on one report, such as AR4.");
        var who = Optional(line, "who").Length > 0 ? OneOf(line, "who", Persons, at) : Who.NotSaid;
        return new(
            OneOf(line, "question", Questions, at),
            who,
            ruling,
            says,
            Needed(line, "instrument", at),
            open ? Optional(line, "article") : Needed(line, "article", at),
            open ? Optional(line, "in-force") : Needed(line, "in-force", at),
            read,
            sure,
            sure is Sureness.Text or Sureness.Summary ? Needed(line, "seen", at) : Optional(line, "seen"),
            open ? Needed(line, "ask", at) : Optional(line, "ask"),
            Optional(line, "limit"),
            Words(line, "refrigerants"),
            line.TryGetProperty("years", out var years) ? years.GetInt32() : null,
            figures,
            report,
            [.. Words(line, "asks").Select(word => Known("asks", word, Items, at))]
        );
    }

    private static FrozenDictionary<string, double> Figures(JsonElement line) =>
        line.TryGetProperty("warming", out var figures)
            ? figures
                .EnumerateObject()
                .ToFrozenDictionary(figure => figure.Name, figure => figure.Value.GetDouble(), StringComparer.Ordinal)
            : FrozenDictionary<string, double>.Empty;

    private static T OneOf<T>(JsonElement element, string name, FrozenDictionary<string, T> known, string at) =>
        Known(name, Needed(element, name, at), known, at);

    private static T Known<T>(string name, string text, FrozenDictionary<string, T> known, string at)
    {
        return known.TryGetValue(text, out var value)
            ? value
            : throw new FormatException(
                $"{at}: {name} is “{text}”; known are "
                    + $"{string.Join(", ", known.Keys.Order(StringComparer.Ordinal))}."
            );
    }

    // The tool of the catalogues reads the books by itself: what people read of them are messages.
    [Said]
    private static string Needed(JsonElement element, string name, string at) =>
        Optional(element, name) is { Length: > 0 } text ? text : throw new FormatException($"{at}: {name} is missing.");

    [Said]
    private static string Optional(JsonElement element, string name) =>
        element.TryGetProperty(name, out var value) ? value.GetString() ?? "" : "";

    private static ImmutableArray<string> Words(JsonElement element, string name) =>
        element.TryGetProperty(name, out var list) ? [.. list.EnumerateArray().Select(word => word.GetString()!)] : [];
}
