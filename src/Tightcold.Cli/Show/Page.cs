using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Spectre.Console;

namespace Tightcold.Cli.Show;

/// <summary>Lines for a person and JSON for a machine.</summary>
internal static class Page
{
    /// <summary>Goes up when a name or a meaning in an answer changes; new names alone change nothing
    /// (docs/answers.md).</summary>
    public const int AnswerVersion = 1;

    private static readonly JsonSerializerOptions Indented = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <param name="hanging">Where lines after the first begin; two further in than the first unless given.</param>
    public static void Line(IAnsiConsole console, string text, int? hanging = null) =>
        Raw(console, Wrapped(text, console.Profile.Width, hanging));

    public static void Heading(IAnsiConsole console, string text) =>
        console.Write(new Text(Wrapped(text, console.Profile.Width), new Style(decoration: Decoration.Bold)));

    /// <summary>Never wrapped, never coloured. A file of the program, such as a job, says its own version.</summary>
    public static void Machine(IAnsiConsole console, JsonNode node)
    {
        if (node is JsonObject answer && !answer.ContainsKey("format"))
            answer.Insert(0, "answer-version", AnswerVersion);
        Raw(console, node.ToJsonString(Indented) + "\n");
    }

    public static void Raw(IAnsiConsole console, string text)
    {
        console.Profile.Out.Writer.Write(text);
        console.Profile.Out.Writer.Flush();
    }

    /// <summary>Broken between words, so that what belongs below a line stands below it. A word wider than the window
    /// stays whole: a path broken in two is none.</summary>
    public static string Wrapped(string text, int width, int? hanging = null)
    {
        var result = new StringBuilder();
        foreach (var line in text.Split('\n'))
        {
            var indent = line.Length - line.TrimStart(' ').Length;
            Wrap(result, line, width, new string(' ', Math.Min(hanging ?? indent + 2, width / 2)));
            result.Append('\n');
        }
        return result.ToString();
    }

    private static void Wrap(StringBuilder result, string line, int width, string hanging)
    {
        var used = 0;
        var at = 0;
        while (at < line.Length)
        {
            // A word with the spaces before it.
            var word = at;
            while (word < line.Length && line[word] == ' ')
                word++;
            var end = word;
            while (end < line.Length && line[end] != ' ')
                end++;
            if (used > 0 && used + Columns(line.AsSpan(at, end - at)) > width && end > word)
            {
                result.Append('\n').Append(hanging);
                used = hanging.Length;
                at = word;
            }
            result.Append(line, at, end - at);
            used += Columns(line.AsSpan(at, end - at));
            at = end;
        }
    }

    /// <summary>Accents that stand on the letter before them take no column.</summary>
    private static int Columns(ReadOnlySpan<char> text)
    {
        var columns = 0;
        foreach (var rune in text.EnumerateRunes())
            columns += Rune.GetUnicodeCategory(rune)
                is System.Globalization.UnicodeCategory.NonSpacingMark
                    or System.Globalization.UnicodeCategory.EnclosingMark
                    or System.Globalization.UnicodeCategory.Format
                ? 0
                : 1;
        return columns;
    }
}
