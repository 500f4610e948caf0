using System.Collections.Immutable;
using Tightcold.Pages.Asked;

namespace Tightcold.Pages.Answering;

/// <summary>One address that is answered.</summary>
/// <param name="IsSent">It takes a form; else it shows something.</param>
/// <param name="Pattern">The path; a part in braces is any text, with <c>:int</c> or <c>:guid</c> one that can be read
/// as such, as a server's own routing writes it.</param>
public sealed record PageRow(bool IsSent, string Pattern, Func<Ask, Task<Answer>> Handler)
{
    private readonly ImmutableArray<string> parts = Split(Pattern);

    internal static PageRow Shows(string pattern, Func<Ask, Task<Answer>> handler) => new(false, pattern, handler);

    internal static PageRow Takes(string pattern, Func<Ask, Task<Answer>> handler) => new(true, pattern, handler);

    /// <summary>The named parts of a path that fits; null where it does not.</summary>
    /// <param name="path">With its percent codes, without what stands behind a question mark.</param>
    public IReadOnlyDictionary<string, string>? Fit(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        var asked = Split(path);
        if (asked.Length != parts.Length)
            return null;
        var places = new Dictionary<string, string>(StringComparer.Ordinal);
        for (var i = 0; i < parts.Length; i++)
        {
            var text = Uri.UnescapeDataString(asked[i]);
            if (parts[i] is not ['{', .. var named, '}'])
            {
                if (!string.Equals(parts[i], text, StringComparison.OrdinalIgnoreCase))
                    return null;
                continue;
            }
            var colon = named.IndexOf(':', StringComparison.Ordinal);
            var kind = colon < 0 ? "" : named[(colon + 1)..];
            if (
                text.Length == 0
                || (kind == "int" && !int.TryParse(text, out _))
                || (kind == "guid" && !Guid.TryParse(text, out _))
            )
                return null;
            places[colon < 0 ? named : named[..colon]] = text;
        }
        return places;
    }

    /// <summary>How much of it is fixed: of two that fit, the one with more says what is meant.</summary>
    internal int Fixed => parts.Count(part => part is not ['{', ..]);

    private static ImmutableArray<string> Split(string path) => [.. path.Trim('/').Split('/')];
}
