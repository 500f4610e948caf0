using System.Globalization;
using System.Text.RegularExpressions;

namespace Tightcold.App.Units;

/// <summary>Reads the number at the start of a text. A dot is the decimal sign. A comma is one only where it cannot
/// be a thousands separator: a pressure read a thousand times too high can hurt.</summary>
internal static partial class NumberText
{
    /// <summary>The number, and the rest of the text behind it.</summary>
    /// <param name="Value">Null when there is none or when it could be read in two ways.</param>
    /// <param name="TwoWays">What the person should write instead; null unless it could be read in two ways.</param>
    internal readonly record struct Result(double? Value, string Rest, string? TwoWays);

    [GeneratedRegex(@"^\s*(?<sign>[-+−])?\s*(?<digits>\d[\d.,]*|[.,]\d+)", RegexOptions.CultureInvariant)]
    private static partial Regex Leading();

    public static Result Read(string text, CultureInfo culture)
    {
        var match = Leading().Match(text);
        if (!match.Success)
            return new(null, text, null);
        var digits = match.Groups["digits"].Value.TrimEnd('.', ',');
        var rest = text[(match.Groups["digits"].Index + digits.Length)..];
        if (Doubtful(digits, culture))
            return new(
                null,
                rest,
                $"“{digits}” could be read in two ways; write it without thousands separators and with a dot before "
                    + $"decimals"
            );
        var plain = digits.Replace(',', '.');
        if (
            !double.TryParse(plain, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            || !double.IsFinite(value)
        )
            return new(null, text, null);
        return new(match.Groups["sign"].Value is "-" or "−" ? -value : value, rest, null);
    }

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
        if (!likeThousands)
            return false;
        var groups = culture.NumberFormat.NumberGroupSeparator;
        var decimals = culture.NumberFormat.NumberDecimalSeparator;
        return digits[at] == ',' ? decimals != "," : decimals != "." && groups == ".";
    }
}
