using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Findings;
using Tightcold.Findings.Steps;
using Tightcold.Jobs.Entries;
using Tightcold.Picture;
using Tightcold.Picture.WeighIn;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Charge;

/// <summary>The plan of a job's weighing-in from here on: containers, scale stops, what stays behind, what is
/// in.</summary>
internal sealed class ChargePlanCommand(Surroundings surroundings) : DeskCommand<JobSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobSettings settings, CancellationToken cancellation)
    {
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        var picture = await Desk.PictureAsync(record, cancellation).ConfigureAwait(false);
        var (live, finding) = (picture.WeighIn, Walk.Of(Step.WeighIn, picture));
        return Answer(
            settings,
            () => Machine(picture, finding),
            () =>
            {
                FindingText.Show(Out, finding, record, Units);
                if (live.Container is { } container && live.StopGrossKg is { } stop)
                    Page.Line(
                        Out,
                        live.SecondsLeft is { } left
                            ? Say.It(
                                $"Next: {container}, close at {Grams(stop)}, about "
                                    + $"{Units.Format(Measure.Seconds(left))} at the last rate."
                            )
                            : Say.It($"Next: {container}, close at {Grams(stop)}.")
                    );
                if (live.Plan is { } plan)
                {
                    var known = Grams(1.96 * Math.Sqrt(plan.SigmaKg * plan.SigmaKg + live.SigmaKg * live.SigmaKg));
                    Page.Line(
                        Out,
                        Say.It($"Waste of this plan: {Grams(plan.WasteKg)}; the charge will be known to ± {known}.")
                    );
                }
            }
        );
    }

    private string Grams(double kilograms) => Units.Format(Measure.Kilograms(kilograms));

    private JsonObject Machine(JobPicture picture, Finding finding) =>
        Machine(picture.WeighIn, WeighInWords.Warnings(picture), finding);

    private JsonObject Machine(LiveWeighIn live, IEnumerable<Quantities.Phrase> warnings, Finding finding) =>
        new()
        {
            ["target-kg"] = live.TargetKg,
            ["tolerance-kg"] = live.ToleranceKg,
            ["in-system-kg"] = live.Balance.SystemKg,
            ["sigma-kg"] = live.SigmaKg,
            ["in-hoses-kg"] = live.Balance.HosesKg,
            ["to-go-kg"] = live.TargetKg is null ? null : live.ToGoKg,
            ["next-container"] = live.Container,
            ["stop-gross-kg"] = live.StopGrossKg,
            ["rate-kg-per-s"] = live.RateKgPerS,
            ["seconds-left"] = live.SecondsLeft,
            ["over-a-tenth-too-much"] = live.Overshoot?.FarTooMuch,
            ["take-out-kg"] = live.Overshoot?.TakeOutKg,
            ["warnings"] = new JsonArray([.. warnings.Select(warning => (JsonNode)warning.Render(Units))]),
            ["plan"] = live.Plan is not { } plan
                ? null
                : new JsonObject
                {
                    ["need-kg"] = plan.NeedKg,
                    ["hoses-kg"] = plan.HoseKg,
                    ["purge-kg"] = plan.PurgeKg,
                    ["waste-kg"] = plan.WasteKg,
                    ["short-kg"] = plan.ShortKg,
                    ["sigma-kg"] = plan.SigmaKg,
                    ["steps"] = new JsonArray([
                        .. plan.Steps.Select(step =>
                            (JsonNode)
                                new JsonObject
                                {
                                    ["container"] = step.Container,
                                    ["draw-kg"] = step.DrawKg,
                                    ["stop-gross-kg"] = step.StopGrossKg,
                                    ["left-kg"] = step.LeftKg,
                                    ["to-its-heel"] = step.Emptied,
                                    ["heel-least-kg"] = step.HeelLeastKg,
                                    ["heel-most-kg"] = step.HeelMostKg,
                                }
                        ),
                    ]),
                },
            ["finding"] = FindingText.Machine(finding, Units),
        };
}
