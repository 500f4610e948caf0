using System.Collections.Immutable;
using System.Globalization;
using Tightcold.App.Units;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.App.Gauges;

/// <summary>Reads a gauge's log (comma, semicolon or tab between columns) into vacuum readings as a person would type
/// them. Nothing is taken in unless every row that is used makes sense.</summary>
public static class GaugeLog
{
    /// <summary>A log of one reading a second is thinned to this many over its length; more would say the same
    /// again.</summary>
    public const int MostReadings = 60;

    private const int MostRows = 200_000;
    private const int MostProblems = 5;

    /// <summary>A reading ready to be written down.</summary>
    public sealed record Line(DateTimeOffset At, ImmutableDictionary<string, string> Fields);

    public static (ImmutableArray<Line> Lines, IReadOnlyList<InputProblem> Problems) Read(
        TextReader text,
        GaugeLogColumns columns
    )
    {
        var problems = new List<InputProblem>();
        var lines = new List<Line>();
        using var csv = GaugeLogLook.Open(text);
        if (!csv.Read() || csv.Record is not { } header)
            return ([], [InputProblem.Of("file", "", $"a first line with the names of the columns is needed")]);
        foreach (var wanted in new[] { columns.Time, columns.Pressure, columns.Temperature }.OfType<string>())
            if (!header.Contains(wanted, StringComparer.OrdinalIgnoreCase))
                problems.Add(
                    InputProblem.Of(
                        "column",
                        wanted,
                        $"the file has the columns {Phrase.Verbatim(string.Join(", ", header.Take(20)))}"
                    )
                );
        if (problems.Count > 0)
            return ([], problems);
        int time = At(header, columns.Time),
            pressure = At(header, columns.Pressure),
            temperature = columns.Temperature is { } name ? At(header, name) : -1;
        for (var row = 2; csv.Read(); row++)
        {
            if (row > MostRows)
            {
                problems.Add(
                    InputProblem.Of(
                        "file",
                        Phrase.Of($"row {row}"),
                        $"at most {MostRows} rows are read; shorten the log"
                    )
                );
                break;
            }
            if (
                Interpret(
                    columns,
                    GaugeLogLook.Cell(csv, time) ?? "",
                    GaugeLogLook.Cell(csv, pressure) ?? "",
                    temperature < 0 ? null : GaugeLogLook.Cell(csv, temperature),
                    row,
                    problems
                ) is
                { } line
            )
                lines.Add(line);
            if (problems.Count >= MostProblems)
                break;
        }
        for (var i = 1; i < lines.Count && problems.Count == 0; i++)
            if (lines[i].At < lines[i - 1].At)
                problems.Add(
                    InputProblem.Of(
                        columns.Time,
                        lines[i].At.ToString("HH:mm:ss", CultureInfo.InvariantCulture),
                        $"times must not run backwards; the row before says "
                            + $"{Phrase.Verbatim(lines[i - 1].At.ToString("HH:mm:ss", CultureInfo.InvariantCulture))}"
                    )
                );
        if (problems.Count == 0 && lines.Count == 0)
            problems.Add(InputProblem.Of("file", "", $"no row with a reading was found"));
        return problems.Count > 0 ? ([], problems) : (Thin(lines), problems);
    }

    private static int At(string[] header, string wanted) =>
        Array.FindIndex(header, name => string.Equals(name, wanted, StringComparison.OrdinalIgnoreCase));

    private static Line? Interpret(
        GaugeLogColumns columns,
        string time,
        string pressure,
        string? temperature,
        int row,
        List<InputProblem> problems
    )
    {
        if (time.Length == 0 && pressure.Length == 0)
            return null;
        if (Moment(columns, time) is not { } at)
        {
            problems.Add(
                new InputProblem(
                    columns.Time,
                    time,
                    columns.TimeUnit is { } unit
                        ? Phrase.Of($"row {row}: a time is needed as a number of {Phrase.Words(unit, UnitWords.Where)}")
                        : Phrase.Of($"row {row}: a time is needed")
                )
            );
            return null;
        }
        if (
            !double.TryParse(pressure, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
            || !double.IsFinite(value)
        )
        {
            problems.Add(InputProblem.Of(columns.Pressure, pressure, $"row {row}: a number is needed"));
            return null;
        }
        var dial =
            columns.PressureUnit.Contains("vacuum", StringComparison.OrdinalIgnoreCase)
            || columns.PressureUnit.Contains("gauge", StringComparison.OrdinalIgnoreCase);
        var fields = ImmutableDictionary<string, string>
            .Empty.Add(dial ? "dial" : FieldNames.AbsolutePressure, $"{pressure} {columns.PressureUnit}")
            .Add(FieldNames.PumpValve, columns.PumpValveShut ? "shut" : "open");
        if (columns.HosesAlone)
            fields = fields.Add(FieldNames.HeldPart, "hoses and gauges alone");
        if (!string.IsNullOrEmpty(temperature))
            fields = fields.Add(FieldNames.PartTemperature, $"{temperature} {columns.TemperatureUnit ?? "°C"}");
        return new(at, fields);
    }

    private static DateTimeOffset? Moment(GaugeLogColumns columns, string text)
    {
        var invariant = CultureInfo.InvariantCulture;
        if (columns.TimeUnit is { } unit)
        {
            return double.TryParse(text, NumberStyles.Float, invariant, out var number) && number is >= 0 and < 1e7
                ? columns.Start.AddSeconds(number * (unit == "min" ? 60 : 1))
                : null;
        }
        if (
            TimeOnly.TryParseExact(
                text,
                ["HH:mm:ss", "H:mm:ss", "HH:mm", "H:mm"],
                invariant,
                DateTimeStyles.None,
                out var time
            )
        )
        {
            var day = new DateTimeOffset(columns.Start.Date + time.ToTimeSpan(), columns.Start.Offset);
            // Past midnight.
            return day < columns.Start.AddMinutes(-1) ? day.AddDays(1) : day;
        }
        if (
            DateTime.TryParseExact(
                text,
                ["yyyy-MM-dd HH:mm:ss", "yyyy-MM-dd'T'HH:mm:ss", "yyyy-MM-dd HH:mm"],
                invariant,
                DateTimeStyles.None,
                out var local
            )
        )
            return new DateTimeOffset(local, columns.Start.Offset);
        return DateTimeOffset.TryParseExact(
            text,
            ["yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd HH:mm:sszzz"],
            invariant,
            DateTimeStyles.None,
            out var full
        )
            ? full
            : null;
    }

    private static ImmutableArray<Line> Thin(List<Line> lines) =>
        lines.Count <= MostReadings
            ? [.. lines]
            :
            [
                .. Enumerable
                    .Range(0, MostReadings)
                    .Select(i => lines[(int)Math.Round(i * (lines.Count - 1.0) / (MostReadings - 1))]),
            ];
}
