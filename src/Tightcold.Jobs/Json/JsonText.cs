using System.Globalization;
using System.Text.Json;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Json;

/// <summary>JSON that somebody else wrote, opened with what the parser itself lets pass and fails on later: half of a
/// character (a lone surrogate, which RFC 8259 section 8.2 leaves open), and a field that stands twice.</summary>
public static class JsonText
{
    /// <summary>Deeper than any file of ours.</summary>
    private const int MostDepth = 32;

    /// <summary>The document, or why it is none.</summary>
    public static (JsonDocument? Document, InputProblem? Problem) Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (HalfCharacter(text) is { } at)
            return (
                null,
                InputProblem.Of(
                    "file",
                    Place(text, at),
                    $"half of a character stands there (a lone surrogate); nothing was imported"
                )
            );
        try
        {
            return (
                JsonDocument.Parse(
                    text,
                    new JsonDocumentOptions { MaxDepth = MostDepth, AllowDuplicateProperties = false }
                ),
                null
            );
        }
        catch (JsonException trouble)
        {
            return (
                null,
                trouble.LineNumber is null || trouble.Message.Contains("uplicate", StringComparison.Ordinal)
                    ? InputProblem.Of(
                        "file",
                        Phrase.Words("two of a field"),
                        $"each field stands once in the JSON; nothing was imported"
                    )
                    : InputProblem.Of(
                        "file",
                        Phrase.Of(
                            $"line {(int)(trouble.LineNumber ?? 0) + 1}, "
                                + $"byte {(int)(trouble.BytePositionInLine ?? 0) + 1}"
                        ),
                        $"the JSON is broken or cut short there; nothing was imported"
                    )
            );
        }
    }

    /// <summary>Where a surrogate stands without its other half, as itself or written <c>\ud83d</c>; or null.</summary>
    private static int? HalfCharacter(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\\' && i + 1 < text.Length && text[i + 1] != 'u')
            {
                i++;
                continue;
            }
            var (unit, length) = Unit(text, i);
            if (!char.IsSurrogate(unit))
                continue;
            var (next, more) = i + length < text.Length ? Unit(text, i + length) : default;
            if (!char.IsSurrogatePair(unit, next))
                return i;
            i += length + more - 1;
        }
        return null;
    }

    private static (char Unit, int Length) Unit(string text, int at) =>
        text[at] == '\\'
        && at + 5 < text.Length
        && text[at + 1] == 'u'
        && ushort.TryParse(
            text.AsSpan(at + 2, 4),
            NumberStyles.AllowHexSpecifier,
            CultureInfo.InvariantCulture,
            out var code
        )
            ? ((char)code, 6)
            : (text[at], 1);

    private static Phrase Place(string text, int at) =>
        Phrase.Of(
            $"line {text.AsSpan(0, at).Count('\n') + 1}, letter {at - (at == 0 ? -1 : text.LastIndexOf('\n', at - 1))}"
        );
}
