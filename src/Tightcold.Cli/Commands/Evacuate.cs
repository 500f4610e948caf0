using System.Text.Json.Nodes;
using Tightcold.App.Diagrams;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Findings;
using Tightcold.Jobs.Entries;
using Tightcold.Picture.Vacuum;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

/// <summary>How the pump-down should go with this pump, these hoses and this weather, and how it went.</summary>
internal sealed class Evacuate(Surroundings surroundings) : DeskCommand<EvacuateSettings>(surroundings)
{
    private static readonly int[] ToldMinutes = [1, 2, 5, 10, 15, 20, 30, 45, 60, 90, 120];

    protected override async Task<int> RunAsync(EvacuateSettings settings, CancellationToken cancellation)
    {
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        var views = await Desk.PictureAsync(record, cancellation).ConfigureAwait(false);
        var (finding, view) = (Walk.Of(Step.PumpDown, views), views.Pump);
        if (settings.Svg is { } path)
            await Files
                .WriteAsync("--svg", path, PumpDownDiagram.Draw(view, Units), cancellation)
                .ConfigureAwait(false);
        return Answer(
            settings,
            () => Machine(view, finding),
            () =>
            {
                FindingText.Show(Out, finding, record, Units);
                var table = new TextTable(Say.It("after"), Say.It("expected (90 %)"));
                foreach (var minutes in ToldMinutes)
                {
                    var (low, _, high) = view.Forecast.At(minutes * 60);
                    table.Row(
                        Units.Format(Measure.Seconds(minutes * 60)),
                        Units.Format(new(QuantityKind.Vacuum, low), new(QuantityKind.Vacuum, high))
                    );
                }
                table.Show(Out);
            }
        );
    }

    private JsonObject Machine(PumpView view, Finding finding) =>
        new()
        {
            ["finding"] = FindingText.Machine(finding, Units),
            ["target-pa"] = view.Forecast.TargetPa,
            ["enough-s"] = view.Forecast.EnoughSeconds,
            ["sure-s"] = view.Forecast.SureSeconds,
            ["expected"] = new JsonArray([
                .. Enumerable
                    .Range(0, view.Forecast.Seconds.Length)
                    .Select(i =>
                        (JsonNode)
                            new JsonObject
                            {
                                ["s"] = view.Forecast.Seconds[i],
                                ["low-pa"] = view.Forecast.LowPa[i],
                                ["median-pa"] = view.Forecast.MedianPa[i],
                                ["high-pa"] = view.Forecast.HighPa[i],
                            }
                    ),
            ]),
            ["observed"] = new JsonArray([
                .. view.Observed.Select(row =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["s"] = row.Seconds,
                            ["pa"] = row.PressurePa,
                            ["sigma-pa"] = row.SigmaPa,
                            ["dial"] = row.OnDial,
                        }
                ),
            ]),
        };
}
