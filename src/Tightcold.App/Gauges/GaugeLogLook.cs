using System.Collections.Immutable;
using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.App.Gauges;

/// <summary>A first look into a gauge's log: its columns, a few rows, and which column looks like what. The person
/// names them; this only proposes.</summary>
public sealed record GaugeLogLook(
    ImmutableArray<string> Columns,
    ImmutableArray<ImmutableArray<string>> Rows,
    string? Time,
    string? Pressure,
    string? Temperature
)
{
    private const int ShownRows = 4;
    private const int MostColumns = 60;

    public static (GaugeLogLook? Look, InputProblem? Problem) Of(TextReader text)
    {
        using var csv = Open(text);
        try
        {
            if (
                !csv.Read()
                || csv.Record is not { Length: > 0 } header
                || header.All(string.IsNullOrWhiteSpace)
            )
                return (null, InputProblem.Of("file", "", $"a first line with the names of the columns is needed"));
            if (header.Length > MostColumns)
                return (
                    null,
                    InputProblem.Of(
                        "file",
                        Phrase.Many(header.Length, $"{header.Length} column", $"{header.Length} columns"),
                        $"at most {MostColumns} columns are read"
                    )
                );
            var rows = ImmutableArray.CreateBuilder<ImmutableArray<string>>();
            while (rows.Count < ShownRows && csv.Read())
                rows.Add([.. header.Select((_, i) => Cell(csv, i) ?? "")]);
            string? Like(params string[] words) =>
                header.FirstOrDefault(name =>
                    words.Any(word => name.Contains(word, StringComparison.OrdinalIgnoreCase))
                );
            return (
                new(
                    [.. header],
                    rows.ToImmutable(),
                    Like("time", "zeit", "elapsed", "date", "sec", "min"),
                    Like("press", "vac", "micron", "mbar", "torr", "druck"),
                    Like("temp", "°")
                ),
                null
            );
        }
        catch (CsvHelperException)
        {
            return (null, InputProblem.Of("file", "", $"this is no table of columns and rows that can be read"));
        }
    }

    /// <summary>Reads the rows of a table: comma, semicolon, tab or bar between columns. The library's parser alone:
    /// its reader of whole objects would bring a compiler of expressions with it.</summary>
    internal static CsvParser Open(TextReader text) =>
        new(
            text,
            new CsvConfiguration(CultureInfo.InvariantCulture)
            {
                DetectDelimiter = true,
                DetectDelimiterValues = [",", ";", "\t", "|"],
                TrimOptions = TrimOptions.Trim,
                BadDataFound = null,
                IgnoreBlankLines = true,
            }
        );

    /// <summary>Null where the row is too short.</summary>
    internal static string? Cell(CsvParser row, int at) => at >= 0 && at < row.Count ? row[at] : null;
}
