using Tightcold.Quantities;

namespace Tightcold.App.Typed;

/// <summary>What was probably meant: the nearest known word, when it is near enough to be a slip of a finger.</summary>
public static class Nearest
{
    private const int LongestCompared = 60;

    /// <summary>Null when nothing lies near. A beginning of exactly one word is near it.</summary>
    public static string? Of(string typed, IEnumerable<string> known)
    {
        ArgumentNullException.ThrowIfNull(typed);
        ArgumentNullException.ThrowIfNull(known);
        var word = typed.Trim().ToLowerInvariant();
        if (word.Length is < 2 or > LongestCompared)
            return null;
        // A third of the letters may be wrong, but never more than three.
        var most = Math.Clamp(word.Length / 3, 1, 3);
        var candidates = known.Distinct(StringComparer.Ordinal).ToList();
        var best = candidates
            .Select(candidate => (candidate, Steps: Steps(word, candidate.ToLowerInvariant())))
            .Where(pair => pair.Steps <= most)
            .OrderBy(pair => pair.Steps)
            .ThenBy(pair => pair.candidate, StringComparer.Ordinal)
            .Select(pair => pair.candidate)
            .FirstOrDefault();
        if (best is not null)
            return best;
        var begun = candidates.Where(name => name.StartsWith(word, StringComparison.OrdinalIgnoreCase)).ToList();
        return word.Length >= 3 && begun.Count == 1 ? begun[0] : null;
    }

    /// <summary>“perhaps condenser is meant; ”, or nothing.</summary>
    public static Phrase Hint(string typed, IEnumerable<string> known) =>
        Of(typed, known) is { } near ? Phrase.Of($"perhaps {Phrase.Verbatim(near)} is meant; ") : Phrase.Empty;

    /// <summary>Letters added, left out, changed, or two beside each other changed over.</summary>
    private static int Steps(string a, string b)
    {
        if (Math.Abs(a.Length - b.Length) > 3)
            return int.MaxValue;
        var rows = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
            rows[i, 0] = i;
        for (var j = 0; j <= b.Length; j++)
            rows[0, j] = j;
        for (var i = 1; i <= a.Length; i++)
        for (var j = 1; j <= b.Length; j++)
        {
            var changed = a[i - 1] == b[j - 1] ? 0 : 1;
            rows[i, j] = Math.Min(Math.Min(rows[i - 1, j], rows[i, j - 1]) + 1, rows[i - 1, j - 1] + changed);
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                rows[i, j] = Math.Min(rows[i, j], rows[i - 2, j - 2] + 1);
        }
        return rows[a.Length, b.Length];
    }
}
