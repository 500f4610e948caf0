using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Tightcold.Jobs.Json;
using Tightcold.Quantities;

namespace Tightcold.LogStore.Lines;

/// <summary>One line of the log: an act, its place among the lines, and a digest over all of it and the digest of the
/// line before. A line proves itself, whatever became of its neighbours; whether one between is missing is told by
/// <see cref="Before"/>. Whose it is stands at its head, at its end and once more in the next line.</summary>
/// <param name="Digest">SHA-256 over the line from behind its own digest to its end, 64 hexadecimal digits.</param>
/// <param name="Number">Counted from 1.</param>
/// <param name="Before">The digest of the line before; of the first line, of the head of the file.</param>
/// <param name="After">Whose the line before was, as text: it is asked for only where that line is damaged.</param>
/// <param name="Act">Null where it was written as it stands, but is not understood here.</param>
/// <param name="Trouble">Why it is not understood.</param>
internal sealed partial record LogLine(
    string Digest,
    ImmutableArray<LogSubject> Of,
    int Number,
    string Before,
    string After,
    LogAct? Act,
    Phrase? Trouble
)
{
    public const string DigestName = "digest",
        OfName = "of",
        NumberName = "line",
        BeforeName = "before",
        AfterName = "after",
        AgainName = "again";

    /// <summary>What the file is; its first line, without the line's end.</summary>
    public const string Head = """{"format":"tightcold-log","version":1}""";

    public const string Format = "tightcold-log";

    public const int Version = 1;

    /// <summary>Longer lines are neither written nor read. A job of many thousand entries stays far below.</summary>
    public const int MostBytes = 32 << 20;

    private const int DigestLength = 64;

    private const string Behind = "\",";

    private static readonly JsonSerializerOptions Plain = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>With what a line begins. It stands nowhere else: inside a text a quotation mark is written with a
    /// stroke before it, and no other object of a line begins with a digest.</summary>
    public static ReadOnlySpan<byte> Begin => "{\"digest\":\""u8;

    /// <summary>With what a line's last property begins; stands nowhere else either.</summary>
    private static ReadOnlySpan<byte> LastProperty => ",\"again\":\""u8;

    public static string HeadDigest { get; } = Hash(Head);

    public static string Hash(string text) => Hash(Encoding.UTF8.GetBytes(text));

    private static string Hash(ReadOnlySpan<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    /// <summary>The place behind this line.</summary>
    public LinePlace Next => new(Number + 1, Digest, Of);

    /// <summary>The line as it is written, without its end.</summary>
    public static byte[] Write(LogAct act, LinePlace place)
    {
        var line = new JsonObject
        {
            [OfName] = Text(act.Subjects),
            [NumberName] = place.Number,
            [BeforeName] = place.Before,
            [AfterName] = Text(place.After),
        };
        ActJson.Write(act, line);
        line[AgainName] = string.Create(CultureInfo.InvariantCulture, $"{place.Number} {Text(act.Subjects)}");
        var rest = Encoding.UTF8.GetBytes(line.ToJsonString(Plain)).AsSpan(1);
        return [.. Begin, .. Encoding.ASCII.GetBytes(Hash(rest) + Behind), .. rest];
    }

    /// <summary>The line, and how many of these bytes are its; null where they do not hold one that is as it was
    /// written. A line whose end was lost ends where its last property does.</summary>
    public static (LogLine Line, int Length)? Read(ReadOnlySpan<byte> bytes)
    {
        if (Rest(bytes) is var whole && !whole.IsEmpty)
            return Parse(bytes) is { } line ? (line, bytes.Length) : null;
        var last = bytes.LastIndexOf(LastProperty);
        var close = last < 0 ? -1 : bytes[last..].IndexOf("\"}"u8);
        if (close < 0)
            return null;
        var shorter = bytes[..(last + close + 2)];
        return shorter.Length < bytes.Length && !Rest(shorter).IsEmpty && Parse(shorter) is { } found
            ? (found, shorter.Length)
            : null;
    }

    /// <summary>Whose what is left of a line is. What it says of the line before is not asked.</summary>
    public static ImmutableArray<LogSubject> Owners(ReadOnlySpan<byte> bytes) =>
        [
            .. Owner()
                .Matches(Encoding.Latin1.GetString(bytes))
                .SelectMany(found => LogSubject.AllIn(found.Groups["list"].Value))
                .Distinct(),
        ];

    /// <summary>The number of the line whose end is the last that is left; null where none is. The number at its end
    /// and not at its head: from a head on more than its line may be gone.</summary>
    public static int? NumberIn(ReadOnlySpan<byte> bytes) =>
        LastNumber()
            .Matches(Encoding.Latin1.GetString(bytes))
            .Select(found => (int?)int.Parse(found.Groups["number"].Value, CultureInfo.InvariantCulture))
            .LastOrDefault();

    /// <summary>What the digest stands for, when it does; empty otherwise.</summary>
    private static ReadOnlySpan<byte> Rest(ReadOnlySpan<byte> bytes)
    {
        var from = Begin.Length + DigestLength + Behind.Length;
        if (bytes.Length <= from || !bytes.StartsWith(Begin) || bytes[from - 2] != '"' || bytes[from - 1] != ',')
            return [];
        var rest = bytes[from..];
        return bytes.Slice(Begin.Length, DigestLength).SequenceEqual(Encoding.ASCII.GetBytes(Hash(rest))) ? rest : [];
    }

    private static LogLine? Parse(ReadOnlySpan<byte> bytes)
    {
        var (document, _) = JsonText.Parse(Encoding.UTF8.GetString(bytes));
        using (document)
        {
            if (
                document?.RootElement is not { ValueKind: JsonValueKind.Object } root
                || Value(root, DigestName) is not { } digest
                || Value(root, OfName) is not { } of
                || Value(root, BeforeName) is not { } before
                || Value(root, AfterName) is not { } after
                || !root.TryGetProperty(NumberName, out var at)
                || at.ValueKind != JsonValueKind.Number
                || !at.TryGetInt32(out var number)
            )
                return null;
            ImmutableArray<LogSubject> subjects = [.. LogSubject.AllIn(of)];
            var (act, trouble) = ActJson.Read(root, subjects);
            return new(digest, subjects, number, before, after, act, trouble);
        }
    }

    private static string? Value(JsonElement root, string name) =>
        root.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static string Text(IEnumerable<LogSubject> subjects) =>
        string.Join(", ", subjects.Select(subject => subject.Text));

    [GeneratedRegex("\"(?:of|again)\":\"(?<list>[^\"]*)")]
    private static partial Regex Owner();

    [GeneratedRegex("\"again\":\"(?<number>[0-9]{1,9}) [^\"]*\"\\}")]
    private static partial Regex LastNumber();
}
