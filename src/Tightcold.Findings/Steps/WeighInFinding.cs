using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Mass;
using Tightcold.Picture.WeighIn;
using Tightcold.Procedures.Charging;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The charge by weight: target, plan over the containers at hand, running balance.</summary>
internal static class WeighInFinding
{
    private const string Title = "Charge by weight";

    private static readonly ImmutableArray<Caution> Hazards =
    [
        new(
            "low-side-only",
            Danger.Life,
            Phrase.Words(
                "Can valve to the low side only, on the high side it can burst; can upright (vapour) while the engine "
                    + "runs: liquid breaks the compressor."
            ),
            "common practice"
        ),
        new(
            "can-bath",
            Danger.Life,
            Phrase.Of(
                $"Warm a can with warm water only, never above {At(EntryRules.HighestBathKelvins)}, never with a flame."
            ),
            "common practice"
        ),
        StepCautions.Freezes,
    ];

    public static Finding Of(JobPicture picture)
    {
        var (record, live) = (picture.Record, picture.WeighIn);
        if (live.TargetKg is not { } target)
            return WithoutTarget(picture);
        var balance = live.Balance;
        var estimates = new List<Estimate>
        {
            Estimate.Between(
                "target",
                "Target from the label",
                QuantityKind.Mass,
                target,
                target - live.ToleranceKg,
                target + live.ToleranceKg,
                EstimateOrigin.Assumed
            ),
        };
        if (live.Begun)
            estimates.Add(
                Estimate.Normal(
                    "in-system",
                    "In the system now",
                    QuantityKind.Mass,
                    balance.SystemKg,
                    live.SigmaKg,
                    floor: 0
                )
            );
        if (balance.HosesKg > 0)
            estimates.Add(
                Estimate.Normal(
                    "in-hoses",
                    "In the hoses",
                    QuantityKind.Mass,
                    balance.HosesKg,
                    0.3 * balance.HosesKg,
                    floor: 0
                )
            );
        if (live.Plan is { } plan)
        {
            estimates.Add(
                Estimate.Normal(
                    "to-hoses",
                    "Hoses will keep",
                    QuantityKind.Mass,
                    plan.HoseKg,
                    0.3 * plan.HoseKg,
                    floor: 0
                )
            );
            var end = Math.Sqrt(live.SigmaKg * live.SigmaKg + plan.SigmaKg * plan.SigmaKg);
            if (plan is { ShortKg: <= 0, Steps.Length: > 0 })
                estimates.Add(
                    Estimate.Normal(
                        "charge-at-end",
                        "In the system at the end of this plan",
                        QuantityKind.Mass,
                        target,
                        end,
                        EstimateOrigin.Modelled,
                        0
                    )
                );
        }
        var missing = Missing(record, balance, live);
        var (certainty, judgement, verdict) = Judge(picture, target);
        return new(
            Step.WeighIn,
            Title,
            missing.Length > 0 && certainty == Certainty.Stands ? Certainty.Weak : certainty,
            judgement,
            verdict
        )
        {
            Why = Why(live),
            Estimates = [.. estimates],
            RestsOn =
            [
                .. record
                    .Journal.Standing.Where(entry =>
                        entry.Kind is EntryKinds.ScaleReading or EntryKinds.ContainerMoved or EntryKinds.Purge
                    )
                    .Select(entry => entry.Id),
            ],
            Assumptions = record.Car.LabelTolerance is null
                ?
                [
                    new(
                        Phrase.Of($"Tolerance ± {Kilograms(live.ToleranceKg)}: the label gives none"),
                        Phrase.Words("small systems ask for less")
                    ),
                ]
                : [],
            Missing = missing,
            Hazards = [.. WeighInWords.Warnings(picture).Select(StepCautions.Now), .. Hazards],
            Next =
                judgement == Judgement.Good
                    ?
                    [
                        new(
                            Phrase.Words("Close the can, let the hose run empty into the system, then prove it cold"),
                            Phrase.Words("whether the repair does what it should"),
                            15,
                            EntryKinds.VentReading,
                            Doing.RunsCompressor
                        ),
                    ]
                    :
                    [
                        new(
                            Phrase.Words("Write down the scale reading"),
                            Phrase.Words("grams to go and the next stop"),
                            1,
                            EntryKinds.ScaleReading,
                            Doing.FillsIn
                        ),
                    ],
            Table = live.Plan is { Steps.Length: > 0 } ahead && judgement != Judgement.Good ? PlanTable(ahead) : null,
        };
    }

    private static Finding WithoutTarget(JobPicture picture) =>
        new(
            Step.WeighIn,
            Title,
            picture.WeighIn.Begun ? Certainty.Weak : Certainty.NothingYet,
            Judgement.CannotTell,
            picture.WeighIn is { Begun: true } live
                ? Phrase.Of($"{Kilograms(live.Balance.SystemKg)} in, and no target: the label charge is not known.")
                : Phrase.Words("No target: the label charge is not known.")
        )
        {
            Missing =
            [
                Phrase.Words(
                    "the charge from the plate under the bonnet or the maker's book; guessing it costs cooling or the "
                        + "compressor"
                ),
            ],
            Hazards = [.. WeighInWords.Warnings(picture).Select(StepCautions.Now), .. Hazards],
            Table = new(
                "Ways without a label, best first",
                ["Way", "May end off by", "Risk"],
                [
                    .. WithoutLabel.All.Select(way =>
                        ImmutableArray.Create(
                            Phrase.Words(way.Way),
                            way.OffBy is { } off ? Phrase.Of($"± {Share(off)}") : Phrase.Words("the maker's tolerance"),
                            Phrase.Words(way.Risk)
                        )
                    ),
                ]
            ),
        };

    private static (Certainty, Judgement, Phrase) Judge(JobPicture picture, double target)
    {
        var (live, state) = (picture.WeighIn, picture.Timeline.Now);
        if (state.ChargedOnto != Foreign.Nothing)
            return (
                Certainty.Stands,
                Judgement.Bad,
                state.ChargedOnto == Foreign.Nitrogen
                    ? Phrase.Of(
                        $"{Kilograms(live.Balance.DrawnKg)} went in on top of nitrogen: it cannot cool as it should. "
                            + $"Recover it, evacuate, and weigh in fresh."
                    )
                    : Phrase.Of(
                        $"{Kilograms(live.Balance.DrawnKg)} went in on top of air: it cannot cool as it should. "
                            + $"Recover it, evacuate, and weigh in fresh."
                    )
            );
        // Nothing is filled in before an evacuation was written down.
        if (!live.Begun && state.NeedsVacuum)
            return (
                Certainty.NothingYet,
                Judgement.Open,
                Phrase.Of($"Target {Kilograms(target)}. Not before it was pulled down.")
            );
        if (!live.Begun && state is { Inside: Inside.AsItCame or Inside.Charge })
            return (
                Certainty.NothingYet,
                Judgement.Open,
                Phrase.Of($"Target {Kilograms(target)}, from empty: what is inside is recovered first.")
            );
        var (balance, tolerance, plan) = (live.Balance, live.ToleranceKg, live.Plan);
        if (!balance.SystemKnown && live.Begun)
            return (
                Certainty.Weak,
                Judgement.CannotTell,
                Phrase.Of(
                    $"{Kilograms(balance.DrawnKg)} added to an unknown rest: the charge is not known. Recover, "
                        + $"evacuate and weigh in from empty."
                )
            );
        if (!live.Begun)
        {
            if (plan is null || plan.Steps.Length == 0)
                return (
                    Certainty.Weak,
                    Judgement.Open,
                    Phrase.Of($"Target {Kilograms(target)}. No can or cylinder with this refrigerant is in the kit.")
                );
            return plan.ShortKg > 0
                ? (
                    Certainty.Weak,
                    Judgement.Open,
                    Phrase.Of($"Target {Kilograms(target)}: the cans at hand fall {Kilograms(plan.ShortKg)} short.")
                )
                : (
                    Certainty.Stands,
                    Judgement.Open,
                    Phrase.Of(
                        $"Target {Kilograms(target)}: draw {Kilograms(plan.NeedKg)} from "
                            + $"{Phrase.Join(", then ", plan.Steps.Select(step => Phrase.Verbatim(step.Container)))}."
                    )
                );
        }
        var within = Overshoot.OddsWithin(balance.SystemKg, live.SigmaKg, target, tolerance);
        var amount = Phrase.Of(
            $"{Kilograms(balance.SystemKg)} ± {Kilograms(SigmasInPlusMinus * live.SigmaKg)} in the system of "
                + $"{Kilograms(target)}"
        );
        if (within >= 0.8)
            return (
                Certainty.Stands,
                Judgement.Good,
                Phrase.Of($"{amount}: within ± {Kilograms(tolerance)} ({Odds(within)} sure).")
            );
        if (live.ToGoKg < -tolerance)
            return (
                Certainty.Stands,
                Judgement.Bad,
                Phrase.Of($"{amount}: {Kilograms(-live.ToGoKg)} too much. Recover the surplus; never let it out.")
            );
        if (live.ToGoKg > tolerance || within < 0.5)
            return (
                Certainty.Stands,
                Judgement.Open,
                Phrase.Of($"{amount}: {Kilograms(Math.Max(0, live.ToGoKg))} to go.")
            );
        return (
            Certainty.Weak,
            Judgement.CannotTell,
            Phrase.Of(
                $"{amount}: {Odds(within)} sure to be within ± {Kilograms(tolerance)}; a better scale would tell."
            )
        );
    }

    private static Phrase Why(LiveWeighIn live)
    {
        if (live.Plan is not { Steps.Length: > 0 } plan || plan.ShortKg > 0)
            return Phrase.Empty;
        var stays =
            plan.PurgeKg > 0
                ? Phrase.Of(
                    $"Of what leaves the cans, {Kilograms(plan.HoseKg)} stays in the hoses, {Kilograms(plan.PurgeKg)} "
                        + $"drives the air out of them."
                )
                : Phrase.Of($"Of what leaves the cans, {Kilograms(plan.HoseKg)} stays in the hoses.");
        return stays.Then(live.Begun ? Phrase.Of($"From here on: {StopText(plan)}") : StopText(plan));
    }

    private static Phrase StopText(ChargePlan plan)
    {
        var last = plan.Steps[^1];
        var name = Phrase.Verbatim(last.Container);
        return last.StopGrossKg is { } stop
            ? Phrase.Of($"Close the valve of {name} when the scale shows {Kilograms(stop)}.")
            : Phrase.Of($"Weigh {name} before opening it: its stop is {Kilograms(last.DrawKg)} below that.");
    }

    private static FindingTable PlanTable(ChargePlan plan) =>
        new(
            "Charge plan",
            ["Container", "Leaves it", "Close at", "Stays inside"],
            [
                .. plan.Steps.Select(step =>
                    ImmutableArray.Create(
                        Phrase.Verbatim(step.Container),
                        Phrase.Of($"{Kilograms(step.DrawKg)}"),
                        step.StopGrossKg is not { } stop ? Phrase.Words("weigh it first")
                            : step.Emptied ? Phrase.Of($"{Kilograms(stop)} (or when the flow dies)")
                            : Phrase.Of($"{Kilograms(stop)}"),
                        Phrase.Of($"{Kilograms(step.LeftKg)}")
                    )
                ),
            ]
        );

    private static ImmutableArray<Phrase> Missing(JobRecord record, MassBalance balance, LiveWeighIn live)
    {
        var missing = new List<Phrase>();
        foreach (
            var holding in balance.Holdings.Values.Where(holding =>
                !holding.Container.IsRecovery && holding.DrawnKg > 0 && !holding.Weighed
            )
        )
            missing.Add(
                Phrase.Of(
                    $"a scale reading of {Phrase.Verbatim(holding.Container.Name)} after use: what a can gave is only "
                        + $"guessed without"
                )
            );
        foreach (var step in live.Plan?.Steps ?? [])
        {
            if (!balance.Holdings.TryGetValue(step.Container, out var holding) || holding.Weighed)
                continue;
            var name = Phrase.Verbatim(step.Container);
            if (holding.Known == ContentKnown.AsSold)
                missing.Add(
                    Phrase.Of(
                        $"whether {name} is still full: it is taken as sold. Weigh it before and after; its "
                            + $"tare is what it weighs when empty"
                    )
                );
            else if (holding.Known == ContentKnown.UsedBefore)
                missing.Add(
                    Phrase.Of(
                        $"how much is left in {name}, used in job {holding.UsedInJob ?? 0}: heft it, and "
                            + $"weigh it before and after"
                    )
                );
        }
        foreach (
            var holding in balance.Holdings.Values.Where(holding =>
                holding is { Known: ContentKnown.UsedBefore, Weighed: false, UsedInJob: not null }
                && holding.Container.Refrigerant == record.Car.Refrigerant
                && live.Plan?.Steps.Any(step => step.Container == holding.Container.Name) != true
            )
        )
            missing.Add(
                Phrase.Of(
                    $"how much is left in {Phrase.Verbatim(holding.Container.Name)}, used in job "
                        + $"{holding.UsedInJob!.Value}: it is left out of the plan until it is weighed"
                )
            );
        if (live.Begun && record.Journal.OfKind(EntryKinds.Purge).FirstOrDefault() is null && !balance.SystemKnown)
            missing.Add(Phrase.Words("how the air was driven out of the hose"));
        return [.. missing];
    }
}
