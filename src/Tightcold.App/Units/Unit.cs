namespace Tightcold.App.Units;

/// <summary>One unit of one kind of quantity: how it is written, how it may be typed, and its way to SI and
/// back.</summary>
/// <param name="Symbol">As shown and offered, e.g. <c>bar gauge</c>.</param>
/// <param name="ToSi">Its factors stand in <see cref="Factor"/>.</param>
/// <param name="FromSi">The inverse of <paramref name="ToSi"/>.</param>
/// <param name="Spellings">Further ways to type it; compared without case, spaces and dots; those of all
/// languages beside each other.</param>
internal sealed record Unit(
    string Symbol,
    Func<double, double> ToSi,
    Func<double, double> FromSi,
    params string[] Spellings
)
{
    /// <summary>Whether it is offered and named where units are listed; what is not is understood all the
    /// same.</summary>
    public bool Offered { get; init; } = true;

    public bool IsTyped(string text)
    {
        var key = Key(text);
        return Key(Symbol) == key || Spellings.Any(spelling => Key(spelling) == key);
    }

    /// <summary>The same for °C, degC and C; for m3 and m³; for mbar·L/s and mbar l/s.</summary>
    internal static string Key(string text) =>
        string.Concat(
            text.Trim()
                .ToLowerInvariant()
                .Replace("deg", "°", StringComparison.Ordinal)
                .Replace('³', '3')
                .Replace('²', '2')
                .Replace('μ', 'µ')
                .Where(letter =>
                    !char.IsWhiteSpace(letter) && letter is not ('.' or '·' or '*' or '°' or '(' or ')' or '-')
                )
        );
}
