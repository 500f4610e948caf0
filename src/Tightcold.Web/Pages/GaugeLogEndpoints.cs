using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.App.Gauges;
using Tightcold.App.Units;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>A gauge's log onto a job: choose the file, say what its columns are, see what was understood, write it
/// down.</summary>
internal static class GaugeLogEndpoints
{
    /// <summary>Characters of a log that a form carries; a reading a second for half a day.</summary>
    private const int LongestText = 2_000_000;

    public static void MapGaugeLog(this IEndpointRouteBuilder site)
    {
        site.MapGet(
            "/jobs/{number:int}/gauge-log",
            async (HttpContext http, JobDesk desk, IIdSource ids, int number, CancellationToken cancellation) =>
                await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                    ? Show(http, Empty(http, ids, record))
                    : Results.NotFound()
        );
        site.MapPost("/jobs/{number:int}/gauge-log", TakeAsync);
    }

    private static async Task<IResult> TakeAsync(
        HttpContext http,
        JobDesk desk,
        IIdSource ids,
        int number,
        CancellationToken cancellation
    )
    {
        if (await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record)
            return Results.NotFound();
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        var model = Empty(http, ids, record) with
        {
            Sending = Guid.TryParse(form["id"], out var id) ? id : ids.NextId(Visit.Of(http).Reader.Now),
        };
        var text = form["text"].ToString();
        if (form.Files["file"] is { Length: > 0 } file)
        {
            using var reader = new StreamReader(file.OpenReadStream());
            text = await reader.ReadToEndAsync(cancellation).ConfigureAwait(false);
        }
        if (text.Length == 0)
            return Show(
                http,
                model with
                {
                    Problems =
                    [
                        new(
                            "file",
                            "",
                            Phrase.Words("choose the log of your gauge, a table with a line of column names")
                        ),
                    ],
                }
            );
        if (text.Length > LongestText)
            return Show(
                http,
                model with
                {
                    Problems =
                    [
                        new(
                            "file",
                            "",
                            Phrase.Words(
                                "a log of up to two million characters is taken; cut it to the hours that matter"
                            )
                        ),
                    ],
                }
            );
        var (look, problem) = GaugeLogLook.Of(new StringReader(text));
        if (look is null)
            return Show(http, model with { Problems = [problem!] });
        var asked = Asked(http, form, look);
        model = model with { Text = text, Look = look, Asked = asked };
        if (form["step"] != "look" && form["step"] != "write")
            return Show(http, model);
        var (columns, trouble) = Columns(http, asked);
        if (columns is null)
            return Show(http, model with { Problems = [trouble!] });
        var (lines, problems) = GaugeLog.Read(new StringReader(text), columns);
        model = model with { Lines = lines, Problems = problems };
        if (problems.Count > 0 || form["step"] == "look")
            return Show(http, model);
        var outcome = await desk.AddGaugeLogAsync(
                number,
                lines,
                EntryEndpoints.Who(record, null),
                model.Sending,
                cancellation
            )
            .ConfigureAwait(false);
        return outcome.Taken
            ? Page.Go(Routes.Step(record.Job, asked.What == GaugeLogChoice.PumpDown ? Step.PumpDown : Step.Hold))
            : Show(http, model with { Lines = [], Problems = outcome.Problems });
    }

    private static GaugeLogModel Empty(HttpContext http, IIdSource ids, JobRecord record)
    {
        var now = Visit.Of(http).Reader.Now;
        return new(record, ids.NextId(now), "", null, new("", "", "", "", "", "", "", GaugeLogChoice.PumpDown), [], []);
    }

    private static GaugeLogChoice Asked(HttpContext http, IFormCollection form, GaugeLogLook look)
    {
        var visit = Visit.Of(http);
        string Or(string field, string? proposed) =>
            form.TryGetValue(field, out var said) ? said.ToString() : proposed ?? "";
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

    private static (GaugeLogColumns?, InputProblem?) Columns(HttpContext http, GaugeLogChoice asked)
    {
        var zone = Visit.Of(http).Reader.Zone;
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

    private static IResult Show(HttpContext http, GaugeLogModel model) =>
        Page.Show<GaugeLogPage>(
            http,
            model.Problems.Count > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
            (nameof(GaugeLogPage.Model), model)
        );
}
