using System.ComponentModel;
using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.App.Books;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

internal sealed class JobCalendarSettings : JobSettings
{
    [CommandOption("--to <FILE>")]
    [OutputFile]
    [Description("Where to write it; next-check-job-NUMBER.ics unless given.")]
    public string? To { get; init; }
}

/// <summary>Writes the next check of a job's car as a calendar file.</summary>
internal sealed class JobCalendar(Surroundings surroundings) : DeskCommand<JobCalendarSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobCalendarSettings settings, CancellationToken cancellation)
    {
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        var picture = await Desk.PictureAsync(record, cancellation).ConfigureAwait(false);
        var path = settings.To ?? CheckCalendar.FileName(picture);
        await Files.WriteAsync("--to", path, CheckCalendar.Of(picture), cancellation).ConfigureAwait(false);
        var day = picture.NextCheckAt.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        return Answer(
            settings,
            () => new JsonObject { ["calendar"] = path, ["next-check-on"] = day },
            () => Page.Line(Out, Say.It($"next check of {record.Car.Label} on {day}, written to {path}"))
        );
    }
}
