using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Tightcold.Tongues;

/// <summary>The messages of a language in the form that translators' programs read: PO, as the GNU gettext manual
/// describes it (chapter “The Format of PO Files”). Read by our own few lines: no kept library for it can be had from
/// the feed, and the format is lines of quoted text.</summary>
internal class Catalogue
{
    public static readonly Catalogue Empty = new([]);

    /// <summary>What stands for a backslash in the parts that the build cuts the files into.</summary>
    private const char EscapesThere = '⧵';

    /// <param name="Context">Where the message stands; null: anywhere.</param>
    /// <param name="Id">The English text.</param>
    /// <param name="Plural">The English text for many; null without one.</param>
    /// <param name="Said">One form, or one for each kind of number.</param>
    /// <param name="Notes">Lines above it, with their sign.</param>
    public sealed record Message(
        string? Context,
        string Id,
        string? Plural,
        ImmutableArray<string> Said,
        ImmutableArray<string> Notes
    )
    {
        public bool IsFuzzy =>
            Notes.Any(note =>
                note.StartsWith("#,", StringComparison.Ordinal) && note.Contains("fuzzy", StringComparison.Ordinal)
            );
    }

    private readonly FrozenDictionary<(string? Context, string Id), ImmutableArray<string>> said;
    private readonly Lazy<HashSet<(string?, string)>> ids;

    public Catalogue(ImmutableArray<Message> messages)
    {
        Messages = messages;
        ids = new(() => [.. messages.Select(message => (message.Context, message.Id))]);
        said = messages
            .Where(message =>
                message is { Id.Length: > 0, IsFuzzy: false } && message.Said.All(form => form.Length > 0)
            )
            .ToFrozenDictionary(message => (message.Context, message.Id), message => message.Said);
    }

    public ImmutableArray<Message> Messages { get; }

    /// <summary>What stands in the program: the English, which all languages have in the same order, and beside it what
    /// this one says. The build cuts the files so.</summary>
    public static Catalogue Shipped(string name)
    {
        var (english, said) = (Part("english"), Part(name + ".said"));
        return english.Length == said.Length
            ? new([.. english.Zip(said, (message, words) => message with { Said = words.Said, Notes = words.Notes })])
            : throw new InvalidOperationException($"the catalogue {name} has other messages than the English");
    }

    private static ImmutableArray<Message> Part(string name)
    {
        using var file = typeof(Catalogue).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"no catalogue {name}");
        using var text = new StreamReader(file, Encoding.UTF8);
        using var reader = new StringReader(text.ReadToEnd().Replace(EscapesThere, '\\'));
        return Parsed(reader);
    }

    /// <summary>Whether it is a message, translated or not.</summary>
    public bool Knows(string message, string? context) =>
        (context is not null && ids.Value.Contains((context, message))) || ids.Value.Contains((null, message));

    /// <summary>The translation; first where it stands, then anywhere. Null where there is none.</summary>
    public virtual string? Find(string message, string? context) =>
        context is not null && said.TryGetValue((context, message), out var here) ? here[0]
        : said.TryGetValue((null, message), out var anywhere) ? anywhere[0]
        : null;

    /// <summary>The translation for a kind of number.</summary>
    public virtual string? Find(string one, string many, int form) =>
        said.TryGetValue((null, one), out var forms) && forms.Length > 1
            ? forms[Math.Min(form, forms.Length - 1)]
            : null;

    /// <exception cref="FormatException">A line is none of the format; it is named.</exception>
    public static Catalogue Read(TextReader reader) => new(Parsed(reader));

    /// <summary>The messages of a whole file, or of either part of one.</summary>
    private static ImmutableArray<Message> Parsed(TextReader reader)
    {
        var messages = ImmutableArray.CreateBuilder<Message>();
        var notes = ImmutableArray.CreateBuilder<string>();
        var fields = new Dictionary<string, StringBuilder>(StringComparer.Ordinal);
        StringBuilder? open = null;
        var number = 0;
        while (reader.ReadLine() is { } line)
        {
            number++;
            var text = line.Trim();
            // A message ends where the next begins: with its notes, its context or its id.
            var begins =
                text.StartsWith('#')
                || text.StartsWith("msgctxt ", StringComparison.Ordinal)
                || (text.StartsWith("msgid ", StringComparison.Ordinal) && fields.ContainsKey("msgid"));
            if ((text.Length == 0 || begins) && fields.Count > 0)
                Close();
            if (text.Length == 0 || text.StartsWith("#~", StringComparison.Ordinal))
                continue;
            if (text[0] == '#')
                notes.Add(text);
            else if (text[0] == '"')
                (open ?? throw Wrong(number, line)).Append(Unquoted(text, number));
            else if (
                text.IndexOf(' ', StringComparison.Ordinal) is > 0 and var gap
                && text.StartsWith("msg", StringComparison.Ordinal)
            )
                fields[text[..gap]] = open = new(Unquoted(text[(gap + 1)..].Trim(), number));
            else
                throw Wrong(number, line);
        }
        if (fields.Count > 0)
            Close();
        return messages.DrainToImmutable();

        void Close()
        {
            messages.Add(
                new(
                    fields.GetValueOrDefault("msgctxt")?.ToString(),
                    fields.GetValueOrDefault("msgid")?.ToString() ?? "",
                    fields.GetValueOrDefault("msgid_plural")?.ToString(),
                    fields.TryGetValue("msgstr", out var one)
                        ? [one.ToString()]
                        :
                        [
                            .. Enumerable
                                .Range(0, fields.Count)
                                .Select(form =>
                                    fields.GetValueOrDefault(
                                        string.Create(CultureInfo.InvariantCulture, $"msgstr[{form}]")
                                    )
                                )
                                .TakeWhile(form => form is not null)
                                .Select(form => form!.ToString()),
                        ],
                    notes.ToImmutable()
                )
            );
            fields.Clear();
            notes.Clear();
            open = null;
        }
    }

    /// <summary>One message as it stands in a file.</summary>
    public static string Written(Message message)
    {
        var text = new StringBuilder();
        foreach (var note in message.Notes)
            text.Append(note).Append('\n');
        if (message.Context is { } context)
            text.Append("msgctxt ").Append(Quoted(context)).Append('\n');
        text.Append("msgid ").Append(Quoted(message.Id)).Append('\n');
        if (message.Plural is { } plural)
        {
            text.Append("msgid_plural ").Append(Quoted(plural)).Append('\n');
            for (var form = 0; form < message.Said.Length; form++)
                text.Append(CultureInfo.InvariantCulture, $"msgstr[{form}] {Quoted(message.Said[form])}\n");
        }
        else
            text.Append("msgstr ").Append(Quoted(message.Said is [var said, ..] ? said : "")).Append('\n');
        return text.ToString();
    }

    private static string Quoted(string text) =>
        "\""
        + text.Replace("\\", "\\\\", StringComparison.Ordinal)
            .Replace("\"", "\\\"", StringComparison.Ordinal)
            .Replace("\n", "\\n", StringComparison.Ordinal)
            .Replace("\t", "\\t", StringComparison.Ordinal)
        + "\"";

    private static string Unquoted(string text, int line)
    {
        if (text.Length < 2 || text[0] != '"' || text[^1] != '"')
            throw Wrong(line, text);
        var plain = new StringBuilder(text.Length);
        for (var at = 1; at < text.Length - 1; at++)
        {
            if (text[at] != '\\')
            {
                plain.Append(text[at]);
                continue;
            }
            at++;
            plain.Append(
                text[at] switch
                {
                    'n' => '\n',
                    't' => '\t',
                    '"' => '"',
                    '\\' => '\\',
                    _ => throw Wrong(line, text),
                }
            );
        }
        return plain.ToString();
    }

    private static FormatException Wrong(int line, string text) =>
        new($"line {line} is no line of a catalogue: {text}");
}
