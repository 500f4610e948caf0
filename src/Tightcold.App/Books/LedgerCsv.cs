using System.Globalization;
using System.Text;
using Tightcold.Picture.Books;

namespace Tightcold.App.Books;

/// <summary>The ledger as a table for a spreadsheet: comma between cells, dot before decimals, masses in grams (RFC
/// 4180).</summary>
public static class LedgerCsv
{
    private const string Head =
        "job,date,car,refrigerant,container,drawn_g,recovered_g,lost_g,charged_g,lost_as_co2_kg,gwp,gwp_by,place,person,"
        + "certificate,went_to";

    public static string Write(RefrigerantLedger ledger)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        var text = new StringBuilder(Head).Append("\r\n");
        foreach (var line in ledger.Lines)
        {
            text.Append(line.Job.ToString(CultureInfo.InvariantCulture))
                .Append(',')
                .Append(line.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture))
                .Append(',')
                .Append(Text(line.Car))
                .Append(',')
                .Append(Text(line.Refrigerant))
                .Append(',')
                .Append(Text(line.Container ?? ""))
                .Append(',')
                .Append(Grams(line.DrawnKg))
                .Append(',')
                .Append(Grams(line.RecoveredKg))
                .Append(',')
                .Append(Grams(line.LostKg))
                .Append(',')
                .Append(Grams(line.ChargedKg))
                .Append(',')
                // Empty, not zero, where no figure is known.
                .Append(line.LostAsCarbonDioxideKg?.ToString("0.000", CultureInfo.InvariantCulture) ?? "")
                .Append(',')
                .Append(line.Warming?.Potential.ToString(CultureInfo.InvariantCulture) ?? "")
                .Append(',')
                .Append(Text(line.Warming?.Words.ToString() ?? ""))
                .Append(',')
                .Append(Text(line.Place))
                .Append(',')
                .Append(Text(line.Person))
                .Append(',')
                .Append(Text(line.Certificate))
                .Append(',')
                .Append(Text(line.WentTo))
                .Append("\r\n");
        }
        return text.ToString();
    }

    /// <summary>A cell of words. A spreadsheet takes =, +, -, @, a tab or a line end at its beginning for a formula: an
    /// apostrophe before it makes it words again.</summary>
    internal static string Text(string words)
    {
        var first = words.TrimStart(' ', '\u00a0', '\ufeff');
        var safe =
            first.Length > 0 && first[0] is '=' or '+' or '-' or '@' or '\t' or '\r' or '\n' or '|' or '%'
                ? "'" + words
                : words;
        return safe.Any(letter => letter is ',' or '"' or '\r' or '\n' or ';' or '\t' or '\'') || safe != safe.Trim()
            ? "\"" + safe.Replace("\"", "\"\"", StringComparison.Ordinal) + "\""
            : safe;
    }

    private static string Grams(double kilograms) =>
        (Math.Round(kilograms * 1e4) / 10 is var grams && grams == 0 ? 0 : grams).ToString(
            "0.0",
            CultureInfo.InvariantCulture
        );
}
