using System.Globalization;
using System.Text.RegularExpressions;
using Tightcold.Quantities;

namespace Tightcold.App.Units;

/// <summary>Reads the number at the start of a text. A dot is the decimal sign. A comma is one only where it cannot
/// be a thousands separator: a pressure read a thousand times too high can hurt. A blank between thousands is never
/// anything else: “1 013,25”.</summary>
internal static partial class NumberText
{
    /// <summary>The number, and the rest of the text behind it.</summary>
    /// <param name="Value">Null when there is none or when it could be read in two ways.</param>
    /// <param name="TwoWays">What the person should write instead; null unless it could be read in two ways.</param>
    internal readonly record struct Result(double? Value, string Rest, Phrase? TwoWays);

    /// <summary>Groups of three with the same blank between all of them (a space, a no-break, a narrow no-break or a
    /// thin one), then decimals; or digits with dots and commas.</summary>
    [GeneratedRegex(
        @"^\s*(?<sign>[-+−])?\s*(?<digits>"
            + @"[1-9]\d{0,2}(?<gap>[ \u00a0\u202f\u2009])\d{3}(?:\k<gap>\d{3})*(?!\d)(?:[.,]\d+)?"
            + @"|\d[\d.,]*|[.,]\d+)",
        RegexOptions.CultureInvariant
    )]
    private static partial Regex Leading();

    public static Result Read(string text, CultureInfo culture)
    {
        var match = Leading().Match(text);
        if (!match.Success)
            return new(null, text, null);
        var digits = match.Groups["digits"].Value.TrimEnd('.', ',');
        var rest = text[(match.Groups["digits"].Index + digits.Length)..];
        var gap = match.Groups["gap"];
        // Behind thousands that a blank sets apart a dot or a comma can only begin the decimals.
        if (!gap.Success && Doubtful(digits, culture))
            return new(null, rest, Ask(digits, culture));
        var plain = (gap.Success ? digits.Replace(gap.Value, "", StringComparison.Ordinal) : digits).Replace(',', '.');
        if (
            !double.TryParse(plain, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            || !double.IsFinite(value)
        )
            return new(null, text, null);
        return new(match.Groups["sign"].Value is "-" or "−" ? -value : value, rest, null);
    }

    /// <summary>With the sign that this reader's language has before decimals.</summary>
    private static Phrase Ask(string digits, CultureInfo culture) =>
        culture.NumberFormat.NumberDecimalSeparator == ","
            ? Phrase.Of(
                $"“{Phrase.Verbatim(digits)}” could be read in two ways; write it without thousands separators and "
                    + $"with a comma before decimals"
            )
            : Phrase.Of(
                $"“{Phrase.Verbatim(digits)}” could be read in two ways; write it without thousands separators and "
                    + $"with a dot before decimals"
            );

    private static bool Doubtful(string digits, CultureInfo culture)
    {
        var marks = digits.Count(letter => letter is '.' or ',');
        if (marks == 0)
            return false;
        if (marks > 1)
            return true;
        var at = digits.IndexOfAny(['.', ',']);
        // "0,125" and ",125" are no thousands; neither is "4,7".
        var likeThousands = digits.Length - at == 4 && at is > 0 and <= 3 && digits[0] != '0';
        // Of the two signs the one that the language has before decimals is in no doubt.
        var decimals = culture.NumberFormat.NumberDecimalSeparator;
        return likeThousands && (digits[at] == ',' ? decimals != "," : decimals != ".");
    }
}
