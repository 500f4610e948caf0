using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands;

/// <summary><c>name=value</c> words of the command line.</summary>
internal static class FieldArguments
{
    public static Dictionary<string, string> Read(string[]? words)
    {
        var result = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var word in words ?? [])
        {
            var at = word.IndexOf('=', StringComparison.Ordinal);
            if (at < 1)
                throw new RefusedException(
                    "fields",
                    word,
                    "fields are written name=value, with quotes around a value that has spaces"
                );
            if (!result.TryAdd(word[..at].Trim(), word[(at + 1)..]))
                throw new RefusedException(word[..at], word[(at + 1)..], "a field may be given only once");
        }
        return result;
    }
}
