using System.Text;
using System.Text.RegularExpressions;

namespace Tightcold.Tongues;

/// <summary>A language that nobody speaks, for finding what no language can be given: the words of every
/// message stand between ⟦ and ⟧, and the message is two fifths longer. What is shown outside of them stands in no
/// catalogue.</summary>
internal sealed partial class PseudoCatalogue : Catalogue
{
    public const char Opens = '⟦',
        Closes = '⟧';

    /// <summary>Any of the languages knows which messages there are.</summary>
    private readonly Catalogue known;

    public PseudoCatalogue(Catalogue known)
        : base([]) => this.known = known;

    public override string? Find(string message, string? context) =>
        known.Knows(message, context) ? Longer(message) : null;

    public override string? Find(string one, string many, int form) =>
        known.Knows(one, null) ? Longer(form == 0 ? one : many) : null;

    private static string Longer(string message)
    {
        // What stands in a place is marked by itself, or is no message.
        var text = new StringBuilder(Opens + Place().Replace(message, place => $"{Closes}{place.Value}{Opens}"));
        for (var more = message.Length * 2 / 5; more > 0; more -= 7)
            text.Append(' ').Append('ö', Math.Min(6, more));
        return text.Append(Closes).ToString();
    }

    [GeneratedRegex(@"\{[0-9]+\}")]
    private static partial Regex Place();
}
