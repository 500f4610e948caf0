using System.Collections.Immutable;
using CsvHelper;
using Tightcold.App.Gauges;
using Tightcold.App.Typed;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Sheets;

/// <summary>Reads a spreadsheet saved as CSV: one row a job, each cell by what its column means. Names no job, writes
/// nothing.</summary>
public static class JobSheet
{
    public const int MostProblems = 5;
    private const int MostRows = 20_000;

    /// <summary>What a row says, by meaning; empty cells left out.</summary>
    public sealed record Row(int Line, DateTimeOffset Opened, ImmutableDictionary<string, string> Texts);

    public static (ImmutableArray<Row> Rows, IReadOnlyList<InputProblem> Problems) Read(string text, SheetLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        var problems = layout.Check().Take(MostProblems).ToList();
        if (problems.Count > 0)
            return ([], problems);
        try
        {
            using var reader = new StringReader(text);
            using var csv = GaugeLogLook.Open(reader);
            if (!csv.Read() || csv.Record is not { } header)
                return ([], [InputProblem.Of("file", "", $"a first line with the names of the columns is needed")]);
            var places = new Dictionary<string, int>(StringComparer.Ordinal);
            foreach (var (meaning, column) in layout.Columns)
            {
                var at = Array.FindIndex(header, name =>
                    string.Equals(name, column, StringComparison.OrdinalIgnoreCase)
                );
                if (at < 0)
                    problems.Add(
                        InputProblem.Of(
                            "column",
                            column,
                            $"{Nearest.Hint(column, header)}the file has "
                                + $"{Phrase.Verbatim(string.Join(", ", header.Take(20)))}"
                        )
                    );
                places[meaning] = at;
            }
            return problems.Count > 0 ? ([], problems) : Rows(csv, layout, places);
        }
        catch (CsvHelperException)
        {
            return ([], [InputProblem.Of("file", "", $"this is no table of columns and rows that can be read")]);
        }
    }

    private static (ImmutableArray<Row>, IReadOnlyList<InputProblem>) Rows(
        CsvParser csv,
        SheetLayout layout,
        Dictionary<string, int> places
    )
    {
        var rows = ImmutableArray.CreateBuilder<Row>();
        var problems = new List<InputProblem>();
        while (csv.Read() && problems.Count < MostProblems)
        {
            if (rows.Count == MostRows)
                return ([], [InputProblem.Of("file", "", $"at most {MostRows} rows are read; part the sheet")]);
            var texts = layout.Values.ToBuilder();
            foreach (var (meaning, place) in places)
                if (GaugeLogLook.Cell(csv, place)?.Trim() is { Length: > 0 } cell)
                    texts[meaning] = layout.Units.TryGetValue(meaning, out var unit) ? $"{cell} {unit}" : cell;
            if (texts.Count == layout.Values.Count)
                continue;
            var line = csv.RawRow;
            if (!texts.Remove(SheetLayout.Opened, out var opened))
                problems.Add(Missing(line, SheetLayout.Opened));
            else if (layout.Moment(opened) is not { } moment)
                problems.Add(
                    InputProblem.Of(
                        Place(line, SheetLayout.Opened),
                        opened,
                        $"a date written as {Phrase.Verbatim(layout.DateFormat ?? "2031-06-12")} is needed; "
                            + $"--date-format says how yours are"
                    )
                );
            else
                rows.Add(new(line, moment, texts.ToImmutable()));
            problems.AddRange(
                new[] { SheetLayout.Car, SheetLayout.Complaint }
                    .Where(needed => !texts.ContainsKey(needed))
                    .Select(needed => Missing(line, needed))
            );
        }
        if (rows.Count == 0 && problems.Count == 0)
            problems.Add(InputProblem.Of("file", "", $"a row with a job is needed below the names of the columns"));
        return problems.Count > 0 ? ([], problems) : (rows.ToImmutable(), problems);
    }

    private static InputProblem Missing(int line, string meaning) =>
        InputProblem.Of(Place(line, meaning), "", $"each job needs it");

    /// <summary>Where in the sheet, for a person.</summary>
    internal static string Place(int line, string meaning) => Say.It($"line {line}: {meaning}");
}
