using System.Text.Json.Nodes;
using Tightcold.App.Gauges;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Entries;

namespace Tightcold.Cli.Commands;

/// <summary>Takes a gauge's log in as vacuum readings.</summary>
internal sealed class GaugeLogCommand(Surroundings surroundings) : DeskCommand<GaugeLogSettings>(surroundings)
{
    protected override async Task<int> RunAsync(GaugeLogSettings settings, CancellationToken cancellation)
    {
        if (settings.TimeUnit is not (null or "s" or "min"))
            throw new RefusedException("time-unit", settings.TimeUnit, "s or min is allowed");
        var start = Moments.Read("start", settings.Start, Surroundings.Clock);
        if (start is null && settings.TimeUnit is not null)
            throw new RefusedException(
                "start",
                "",
                "a log that counts from its start needs --start, the time when it began"
            );
        var columns = new GaugeLogColumns(
            settings.Time,
            settings.TimeUnit,
            settings.Pressure,
            settings.Unit,
            settings.Temperature,
            settings.TemperatureUnit,
            start ?? Surroundings.Clock.GetLocalNow().Date,
            settings.Hold || settings.HosesAlone,
            settings.HosesAlone
        );
        var text =
            settings.From == "-"
                ? await Surroundings.In.ReadToEndAsync(cancellation).ConfigureAwait(false)
                : await File.ReadAllTextAsync(settings.From, cancellation).ConfigureAwait(false);
        using var reader = new StringReader(text);
        var (lines, problems) = GaugeLog.Read(reader, columns);
        if (problems.Count > 0)
            throw new RefusedException(problems);
        var who = await WhoAsync(settings.Who, cancellation).ConfigureAwait(false);
        foreach (var line in lines)
            (
                await Desk.AddEntryAsync(
                        settings.Number,
                        EntryKinds.VacuumReading,
                        line.Fields,
                        line.At,
                        who,
                        cancellation: cancellation
                    )
                    .ConfigureAwait(false)
            ).Value();
        return Answer(
            settings,
            () =>
                new JsonObject
                {
                    ["readings"] = lines.Length,
                    ["from"] = lines[0].At.ToString("O"),
                    ["to"] = lines[^1].At.ToString("O"),
                },
            () =>
                Page.Line(
                    Out,
                    $"{lines.Length} readings taken in, {Moments.Show(lines[0].At)} to {Moments.Show(lines[^1].At)}"
                )
        );
    }
}
