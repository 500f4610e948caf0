using System.Globalization;
using Tightcold.App.Typed;
using Tightcold.Cli.Commands;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Wiring;

/// <summary>Fits typed words to a command: its settings, or one sentence on the word that does not fit. Nothing of the
/// command has begun by then.</summary>
internal static class CommandReader
{
    public static DeskSettings Read(CommandRow row, IReadOnlyList<string> words)
    {
        var settings = (DeskSettings)Activator.CreateInstance(row.Settings)!;
        var given = new Dictionary<WordSpec, List<string>>();
        var places = new List<string>();
        for (var i = 0; i < words.Count; i++)
        {
            var word = words[i];
            if (word == "--")
            {
                places.AddRange(words.Skip(i + 1));
                break;
            }
            if (!IsOption(word))
            {
                places.Add(word);
                continue;
            }
            var (name, value) = word.IndexOf('=', StringComparison.Ordinal) is > 0 and var at
                ? (word[..at], word[(at + 1)..])
                : (word, null);
            var option = row.Words.Option(name) ?? throw Unknown(row, name);
            if (option.Value is null)
            {
                if (value is not null)
                    throw Misread(row, word, Phrase.Of($"{name} takes no value"));
                value = "true";
            }
            else if (value is null)
            {
                // “-5 °C” is a value, “--json” is the next option.
                value =
                    i + 1 < words.Count && !IsOption(words[i + 1])
                        ? words[++i]
                        : throw Misread(
                            row,
                            name,
                            Phrase.Of($"{name} needs {Phrase.Verbatim(option.Value)} behind it ({Small(option.Says)})")
                        );
            }
            if (!given.TryGetValue(option, out var values))
                given[option] = values = [];
            else if (!option.Many)
                throw Misread(row, name, "an option may be given only once");
            values.Add(value);
        }
        Place(row, places, given);
        foreach (var (spec, values) in given)
            spec.Property.SetValue(settings, Value(row, spec, values));
        return settings;
    }

    /// <summary>A number below zero, and a lone hyphen for standard input, are values.</summary>
    public static bool IsOption(string word) =>
        word.Length > 1 && word[0] == '-' && !char.IsAsciiDigit(word[1]) && word[1] is not ('.' or ',');

    public static RefusedException Misread(CommandRow row, string word, Phrase sentence) =>
        new(RefusedException.CommandLine, word, $"{sentence}; see tightcold {Phrase.Verbatim(row.Path)} --help");

    private static RefusedException Unknown(CommandRow row, string name)
    {
        var known = row.Words.Options.SelectMany(option => option.Names).Append("--help");
        return Misread(row, name, Phrase.Of($"{Nearest.Hint(name, known)}there is no such option"));
    }

    private static void Place(CommandRow row, List<string> places, Dictionary<WordSpec, List<string>> given)
    {
        var used = 0;
        foreach (var argument in row.Words.Arguments)
        {
            var part = argument.Many ? places[used..] : places.Skip(used).Take(1).ToList();
            used += part.Count;
            if (part.Count > 0)
                given[argument] = part;
            else if (argument.Needed)
                throw new RefusedException(
                    argument.Name,
                    "",
                    $"{Small(argument.Says)} is needed here; see tightcold {Phrase.Verbatim(row.Path)} --help"
                );
        }
        if (used < places.Count)
            throw Misread(row, places[used], "that is one word too many; words that belong together stand in quotes");
    }

    private static object Value(CommandRow row, WordSpec spec, List<string> values)
    {
        foreach (var value in values)
        {
            if (spec.Choices.Length > 0 && !spec.Choices.Contains(value, StringComparer.OrdinalIgnoreCase))
                throw new RefusedException(
                    spec.Name,
                    value,
                    $"{Nearest.Hint(value, spec.Choices)}{Listed(spec.Choices)} is allowed"
                );
            if (spec.Writes)
                Files.CheckOutput(spec.Name, value);
            if (spec.Reads)
                Files.CheckInput(spec.Name, value);
        }
        var type = spec.Property.PropertyType;
        if (type == typeof(bool))
            return true;
        if (type == typeof(string[]))
            return values.ToArray();
        var text = spec.Choices.FirstOrDefault(word => word.Equals(values[0], StringComparison.OrdinalIgnoreCase))
            ?? values[0];
        if (type == typeof(string))
            return text;
        var invariant = CultureInfo.InvariantCulture;
        if (type == typeof(int) || type == typeof(int?))
            return int.TryParse(text, NumberStyles.AllowLeadingSign, invariant, out var whole)
                ? whole
                : throw Misread(row, text, Phrase.Of($"{Phrase.Verbatim(spec.Name)} is a whole number"));
        return Number(text, out var number) && double.IsFinite(number)
            ? number
            : throw Misread(
                row,
                text,
                Phrase.Of($"{Phrase.Verbatim(spec.Name)} is a plain number with a dot before decimals")
            );
    }

    /// <summary>A plain number with a dot, or as the language writes it; thousands are set apart in neither.</summary>
    public static bool Number(string text, out double number) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out number)
        || double.TryParse(text, NumberStyles.Float, Say.Tongue.Culture, out number);

    private static Phrase Listed(IReadOnlyList<string> words) =>
        words.Count < 2
            ? Phrase.Verbatim(string.Concat(words))
            : Phrase.Of($"{Phrase.Verbatim(string.Join(", ", words.SkipLast(1)))} or {Phrase.Verbatim(words[^1])}");

    /// <summary>A description within a sentence.</summary>
    private static Phrase Small(string sentence) =>
        sentence.Length == 0 ? Phrase.Words("a value")
        : Say.Within(sentence).TrimEnd('.') is ['A', ' ', .. var rest] ? Phrase.Verbatim("a " + rest)
        : Phrase.Verbatim(Say.Within(sentence).TrimEnd('.'));
}
