using System.Text.Json.Nodes;
using Tightcold.App.Desk;
using Tightcold.App.Gauges;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

/// <summary>Takes a gauge's log in as vacuum readings.</summary>
internal sealed class GaugeLogCommand(Surroundings surroundings) : DeskCommand<GaugeLogSettings>(surroundings)
{
    protected override async Task<int> RunAsync(GaugeLogSettings settings, CancellationToken cancellation)
    {
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
        var text = await Files.ReadAsync("file", settings.From, Surroundings, cancellation).ConfigureAwait(false);
        using var reader = new StringReader(text);
        var (lines, problems) = GaugeLog.Read(reader, columns);
        if (problems.Count > 0)
            throw new RefusedException(problems);
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        if (JobDesk.HeldOf(record, lines) is > 0 and var held)
            throw new RefusedException(
                "file",
                settings.From,
                $"{held} of its {lines.Length} readings are in the journal already, and nothing was added; to take a "
                    + $"log in anew, first: tightcold job undo {settings.Number}"
            );
        var who = await WhoAsync(settings.Who, cancellation).ConfigureAwait(false);
        var sending = Surroundings.Ids.NextId(Surroundings.Clock.GetUtcNow());
        (await Desk.AddGaugeLogAsync(settings.Number, lines, who, sending, cancellation).ConfigureAwait(false)).Value();
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
                    Say.It(
                        $"{lines.Length} readings taken in, {Moments.Show(lines[0].At)} to "
                            + $"{Moments.Show(lines[^1].At)}; "
                            + $"take them back with: tightcold job undo {settings.Number}"
                    )
                )
        );
    }
}
