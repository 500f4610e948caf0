using System.Globalization;
using System.Text;
using Tightcold.App.Desk;
using Tightcold.App.Diagnosing;
using Tightcold.App.Gauges;
using Tightcold.App.PropertyTables;
using Tightcold.App.Units;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Json;
using Tightcold.Properties;

namespace Tightcold.Fuzz;

/// <summary>Every way in for a file that somebody else wrote, each with what must hold whatever the file says: it is
/// taken in and comes out the same, or refused in sentences; it never throws.</summary>
internal static class Importers
{
    public static readonly IReadOnlyList<string> Names = ["job", "readings", "props", "gauge"];

    private static readonly ReaderUnits Us = new(UnitSystem.Us, CultureInfo.InvariantCulture);
    private static readonly DateTimeOffset Start = new(2031, 7, 4, 9, 0, 0, TimeSpan.FromHours(-5));

    public static Action<byte[]> Find(string name) =>
        name switch
        {
            "job" => Job,
            "readings" => Readings,
            "props" => Props,
            "gauge" => Gauge,
            _ => throw new ArgumentException(
                $"{name} is no importer; there are {string.Join(", ", Names)}",
                nameof(name)
            ),
        };

    /// <summary>A job file that is taken in is written, read and written again without a difference.</summary>
    private static void Job(byte[] bytes)
    {
        var (record, problems) = JobDocument.Read(Text(bytes));
        Refused(record is null || problems.Count > 0, problems);
        if (record is null || problems.Count > 0)
            return;
        Say(TypedText.Check(record));
        var written = JobDocument.Write(record);
        var (again, complaints) = JobDocument.Read(written);
        Hold(
            again is not null && complaints.Count == 0 && JobDocument.Write(again) == written,
            "what was written is read and written again"
        );
    }

    private static void Readings(byte[] bytes)
    {
        var (record, problems) = ReadingsFile.Read(Text(bytes));
        Refused(record is null, problems);
    }

    /// <summary>Each row of a table of states has a row in the result, bad ones with a reason.</summary>
    private static void Props(byte[] bytes)
    {
        // The first byte chooses fluid and layer, so that one corpus serves all.
        var text = Text(bytes);
        var fluid = bytes.Length > 0 && bytes[0] % 2 == 0 ? FluidCatalog.Get("R134a") : FluidCatalog.Get("R744");
        using var output = new StringWriter(CultureInfo.InvariantCulture);
        using var input = new StringReader(text);
        long told = 0;
        try
        {
            var summary = new PropertyTableEvaluator(fluid, PropertyLayer.Reference)
                .RunAsync(input, output, _ => told++)
                .GetAwaiter()
                .GetResult();
            Hold(told == summary.BadRows, "each bad row is told");
            Hold(output.ToString().Count(letter => letter == '\n') == summary.Rows + 1, "each row has its result");
        }
        catch (PropertyTableException refused)
        {
            Hold(refused.Message.Length > 0, "a refusal says why");
        }
    }

    /// <summary>A gauge's log that is taken in gives readings that the journal's own reader understands or
    /// refuses.</summary>
    private static void Gauge(byte[] bytes)
    {
        var text = Text(bytes);
        var counts = bytes.Length > 0 && bytes[0] % 2 == 0;
        var columns = new GaugeLogColumns(
            "Time",
            counts ? "s" : null,
            "Vacuum",
            "micron",
            counts ? null : "Temp",
            null,
            Start,
            PumpValveShut: true,
            HosesAlone: false
        );
        using var reader = new StringReader(text);
        var (lines, problems) = GaugeLog.Read(reader, columns);
        Refused(lines.Length == 0, problems);
        Hold(lines.Length <= GaugeLog.MostReadings, "a log is thinned");
        foreach (var line in lines)
            Say(
                FieldReader
                    .Read(EntryKinds.Get(EntryKinds.VacuumReading), line.Fields, CultureInfo.InvariantCulture)
                    .Problems
            );
    }

    private static string Text(byte[] bytes)
    {
        using var reader = new StreamReader(new MemoryStream(bytes), Encoding.UTF8);
        return reader.ReadToEnd();
    }

    private static void Refused(bool refused, IReadOnlyCollection<InputProblem> problems)
    {
        Hold(refused == problems.Count > 0, "refused with a reason, or taken in without one");
        Say(problems);
    }

    private static void Say(IReadOnlyCollection<InputProblem> problems)
    {
        foreach (var problem in problems)
            Hold(problem.Sentence.Render(Us).Length > 0, "a refusal says why");
    }

    private static void Hold(bool holds, string what)
    {
        if (!holds)
            throw new InvalidOperationException("broken: " + what);
    }
}
