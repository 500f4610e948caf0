namespace Tightcold.Quantities;

/// <summary>A language in which sentences are said. A message is its English text with places <c>{0}</c>, <c>{1}</c>;
/// what the language does not know is said as it is.</summary>
public interface ITongue
{
    /// <summary>The message in this language, its places still in it.</summary>
    /// <param name="message">The English text.</param>
    /// <param name="context">Where it stands, for a word that means two things; null: anywhere.</param>
    string Say(string message, string? context = null);

    /// <summary>The message for this many, its places still in it.</summary>
    string Say(string one, string many, long count);

    /// <summary>Words that begin a line, as they are written in the middle of one; a language that writes its nouns
    /// large leaves them.</summary>
    string Within(string words);
}

/// <summary>English: every message is its own text.</summary>
public sealed class MotherTongue : ITongue
{
    public static readonly MotherTongue Instance = new();

    private MotherTongue() { }

    public string Say(string message, string? context = null) => message;

    public string Say(string one, string many, long count) => count == 1 ? one : many;

    public string Within(string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return Lowered(words);
    }

    /// <summary>The first letter small, unless the word is written in capitals (“UV lamp”, “PAG oil”).</summary>
    public static string Lowered(string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return words.Length == 0 || (words.Length > 1 && (char.IsUpper(words[1]) || !char.IsLetter(words[1])))
            ? words
            : char.ToLowerInvariant(words[0]) + words[1..];
    }
}
