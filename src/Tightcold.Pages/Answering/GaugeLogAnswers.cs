using System.Globalization;
using Tightcold.App.Desk;
using Tightcold.App.Gauges;
using Tightcold.App.Units;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;
using Tightcold.Quantities;

namespace Tightcold.Pages.Answering;

/// <summary>A gauge's log onto a job: choose the file, say what its columns are, see what was understood, write it
/// down.</summary>
internal sealed class GaugeLogAnswers(JobDesk desk, IIdSource ids)
{
    /// <summary>Characters of a log that a form carries; a reading a second for half a day.</summary>
    private const int LongestText = 2_000_000;

    private const string Here = "/jobs/{number:int}/gauge-log";

    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Here, async ask =>
                await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is { } record
                    ? Show(Empty(ask, record))
                    : new Answer.NotHere()
            ),
            PageRow.Takes(Here, TakeAsync),
        ];

    private async Task<Answer> TakeAsync(Ask ask)
    {
        if (await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is not { } record)
            return new Answer.NotHere();
        var model = Empty(ask, record) with { Sending = ask.SentId ?? ids.NextId(ask.Now) };
        Answer Refused(string field, Phrase why) => Show(model with { Problems = [new(field, "", why)] });
        var text = ask.Sent.GetValueOrDefault("text", "");
        if (ask.Files.TryGetValue("file", out var file))
        {
            using var reader = new StreamReader(new MemoryStream(file));
            text = await reader.ReadToEndAsync(ask.Cancellation).ConfigureAwait(false);
        }
        if (text.Length == 0)
            return Refused("file", "choose the log of your gauge, a table with a line of column names");
        if (text.Length > LongestText)
            return Refused("file", "a log of up to two million characters is taken; cut it to the hours that matter");
        var (look, problem) = GaugeLogLook.Of(new StringReader(text));
        if (look is null)
            return Show(model with { Problems = [problem!] });
        var asked = Asked(ask, look);
        model = model with { Text = text, Look = look, Asked = asked };
        var step = ask.Field("step");
        if (step is not ("look" or "write"))
            return Show(model);
        var (columns, trouble) = Columns(ask, asked);
        if (columns is null)
            return Show(model with { Problems = [trouble!] });
        var (lines, problems) = GaugeLog.Read(new StringReader(text), columns);
        model = model with { Lines = lines, Problems = problems };
        if (problems.Count > 0 || step == "look")
            return Show(model);
        var outcome = await desk.AddGaugeLogAsync(
                record.Job.Number,
                lines,
                EntryAnswers.Who(record, null),
                model.Sending,
                ask.Cancellation
            )
            .ConfigureAwait(false);
        return outcome.Taken
            ? Answer.Go(Routes.Step(record.Job, asked.What == GaugeLogChoice.PumpDown ? Step.PumpDown : Step.Hold))
            : Show(model with { Lines = [], Problems = outcome.Problems });
    }

    private GaugeLogModel Empty(Ask ask, JobRecord record) =>
        new(record, ids.NextId(ask.Now), "", null, new("", "", "", "", "", "", "", GaugeLogChoice.PumpDown), [], []);

    private static GaugeLogChoice Asked(Ask ask, GaugeLogLook look)
    {
        var visit = ask.Visit;
        string Or(string field, string? proposed) => ask.Sent.GetValueOrDefault(field, proposed ?? "");
        var first = look.Time is { } time && look.Rows.Length > 0 ? look.Rows[0][look.Columns.IndexOf(time)] : "";
        var counts = double.TryParse(first, NumberStyles.Float, CultureInfo.InvariantCulture, out _);
        var us = visit.System == UnitSystem.Us;
        return new(
            Or("time", look.Time),
            Or(
                "time-unit",
                counts
                    ? look.Time!.Contains("min", StringComparison.OrdinalIgnoreCase)
                        ? "min"
                        : "s"
                    : ""
            ),
            Or("pressure", look.Pressure),
            Or("pressure-unit", Unit(look.Pressure) ?? (us ? "micron" : "mbar")),
            Or("temperature", look.Temperature),
            Or(
                "temperature-unit",
                look.Temperature?.Contains('F', StringComparison.Ordinal) == true || us ? "°F" : "°C"
            ),
            Or(
                "start",
                visit.Reader.Local(visit.Reader.Now).ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture)
            ),
            Or("what", GaugeLogChoice.PumpDown)
        );
    }

    /// <summary>The unit that a column's name mentions.</summary>
    private static string? Unit(string? column) =>
        column is null
            ? null
            : GaugeLogPage.PressureUnits.FirstOrDefault(unit =>
                column.Contains(unit, StringComparison.OrdinalIgnoreCase)
            );

    private static (GaugeLogColumns?, InputProblem?) Columns(Ask ask, GaugeLogChoice asked)
    {
        var zone = ask.Visit.Reader.Zone;
        if (!DateTime.TryParse(asked.Start, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local))
            return (null, new("start", asked.Start, Phrase.Words("the day and time when the log began are needed")));
        if (asked.Time.Length == 0)
            return (null, new("time", "", Phrase.Words("say which column holds the times")));
        if (asked.Pressure.Length == 0)
            return (null, new("pressure", "", Phrase.Words("say which column holds the pressures")));
        var plain = DateTime.SpecifyKind(local, DateTimeKind.Unspecified);
        return (
            new(
                asked.Time,
                asked.TimeUnit.Length == 0 ? null : asked.TimeUnit,
                asked.Pressure,
                asked.PressureUnit,
                asked.Temperature.Length == 0 ? null : asked.Temperature,
                asked.TemperatureUnit,
                new DateTimeOffset(plain, zone.GetUtcOffset(plain)),
                asked.What != GaugeLogChoice.PumpDown,
                asked.What == GaugeLogChoice.Hoses
            ),
            null
        );
    }

    private static Answer Show(GaugeLogModel model) =>
        Answer.Show<GaugeLogPage>(model.Problems.Count > 0, (nameof(GaugeLogPage.Model), model));
}
