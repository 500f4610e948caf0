using System.Text.Json.Nodes;
using Tightcold.App.Diagrams;
using Tightcold.App.Units;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Findings;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture.Vacuum;
using Tightcold.Procedures.Hold;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

/// <summary>What explains the hold, with odds; the smallest leak it could have seen; how long to hold for
/// another.</summary>
internal sealed class Hold(Surroundings surroundings) : DeskCommand<HoldSettings>(surroundings)
{
    protected override async Task<int> RunAsync(HoldSettings settings, CancellationToken cancellation)
    {
        var rate = Wanted(settings.See);
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        var views = await Desk.PictureAsync(record, cancellation).ConfigureAwait(false);
        var (finding, view) = (Walk.Of(Step.Hold, views), views.Hold);
        if (settings.Svg is { } path)
            await Files
                .WriteAsync(
                    "--svg",
                    path,
                    view is null
                        ? throw new RefusedException(
                            "--svg",
                            path,
                            "there is nothing to draw yet; vacuum readings with the pump valve shut are needed first"
                        )
                        : HoldDiagram.Draw(view, Units),
                    cancellation
                )
                .ConfigureAwait(false);
        return Answer(
            settings,
            () => Machine(finding, view, rate),
            () =>
            {
                FindingText.Show(Out, finding, record, Units);
                if (view is null)
                    return;
                var plan = view.PlanFor(rate);
                var leak = Units.Format(new Measure(QuantityKind.LeakRate, rate));
                var (least, most) = (Measure.Seconds(plan.LeastSeconds), Measure.Seconds(plan.MostSeconds));
                Page.Line(
                    Out,
                    plan.Never
                        ? Say.It(
                            $"To see {leak}: no vacuum hold on this car and gauge ever will; at the least "
                                + $"{Units.Format(least)} would be needed, and oil and weather move more than such a "
                                + $"leak. A detector or soap at pressure does, or weighing after some months."
                        )
                        : Say.It($"To see {leak}: hold for {Units.Format(least, most)}, after the kind of hole.")
                );
            }
        );
    }

    private static double Wanted(string? typed)
    {
        var (value, problem) = UnitParser.Parse(
            new FieldType.Quantity(QuantityKind.LeakRate, 0, 1),
            typed ?? "40 g/yr",
            Say.Tongue.Culture
        );
        return value?.Value.Si is > 0 and var si
            ? si
            : throw new RefusedException([
                problem ?? InputProblem.Of("see", typed ?? "", $"a rate above zero is needed"),
            ]);
    }

    private JsonObject Machine(Finding finding, HoldView? view, double rate)
    {
        var node = new JsonObject { ["finding"] = FindingText.Machine(finding, Units) };
        if (view is null)
            return node;
        var odds = new JsonObject();
        foreach (var explanation in Enum.GetValues<HoldExplanation>())
            odds[FindingText.Kebab(explanation.ToString())] = view.Odds.Of(explanation);
        node["odds"] = odds;
        node["leak-seen"] = view.Odds.LeakSeen;
        node["floor-pa-m3-per-s"] = view.Odds.FloorPaM3PerS;
        node["leak-pa-m3-per-s"] = new JsonObject
        {
            ["p05"] = view.Odds.LeakLowPaM3PerS,
            ["p50"] = view.Odds.LeakMedianPaM3PerS,
            ["p95"] = view.Odds.LeakHighPaM3PerS,
        };
        var plan = view.PlanFor(rate);
        node["plan"] = new JsonObject
        {
            ["rate-kg-per-s"] = rate,
            ["least-s"] = plan.LeastSeconds,
            ["most-s"] = plan.MostSeconds,
            ["never"] = plan.Never,
        };
        return node;
    }
}
