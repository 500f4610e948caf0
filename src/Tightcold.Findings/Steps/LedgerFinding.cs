using System.Collections.Immutable;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Mass;
using Tightcold.Procedures.Recovery;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>Every gram: recovered, charged, lost, from which container.</summary>
internal static class LedgerFinding
{
    public static Finding Of(JobPicture picture)
    {
        var (record, balance) = (picture.Record, picture.Mass);
        var touched = balance.Holdings.Values.Where(holding => holding.Weighed || holding.DrawnKg != 0).ToArray();
        if (touched.Length == 0 && balance.LostKg == 0)
            return new(
                Step.Ledger,
                "Refrigerant ledger",
                Certainty.NothingYet,
                Judgement.Open,
                Phrase.Words("No refrigerant moved yet.")
            );
        var missing = balance.CameInKnown
            ? ImmutableArray<Phrase>.Empty
            :
            [
                Phrase.Words(
                    "what the car came with: nothing was read or recovered, so what was lost from it is not counted"
                ),
            ];
        return new(
            Step.Ledger,
            "Refrigerant ledger",
            balance.CameInKnown ? Certainty.Stands : Certainty.Weak,
            Judgement.Good,
            Phrase.Of(
                $"Recovered {Kilograms(balance.RecoveredKg)}, drawn from cans {Kilograms(touched.Sum(holding => holding.DrawnKg))}, in the system {Kilograms(balance.SystemKg)}, lost {Kilograms(balance.LostKg)}."
            )
        )
        {
            Why = Phrase
                .Of(
                    $"Came in {Kilograms(balance.CameInKg)} ({Kilograms(balance.CameInWithCarKg)} with the car, {Kilograms(balance.CameInContainersKg)} in containers); accounted for {Kilograms(balance.AccountedKg)}."
                )
                .Then(Warming(record, balance)),
            Estimates =
            [
                Estimate.Normal(
                    "lost",
                    "Lost to the air (leaks left aside)",
                    QuantityKind.Mass,
                    balance.LostKg,
                    Math.Sqrt(balance.SystemVarianceKg2) + 0.002,
                    floor: 0
                ),
                Estimate.Normal(
                    "in-system-now",
                    "In the system",
                    QuantityKind.Mass,
                    balance.SystemKg,
                    Math.Sqrt(balance.SystemVarianceKg2),
                    floor: 0
                ),
            ],
            Missing = missing,
            Table = new(
                "By container",
                ["Container", "Held at first", "Holds now", "Drawn"],
                [
                    .. balance.Holdings.Values.Select(holding =>
                        ImmutableArray.Create(
                            Phrase.Words(holding.Container.Name),
                            Phrase.Of($"{Kilograms(holding.FirstNetKg)}"),
                            Phrase.Of($"{Kilograms(holding.NetKg)}"),
                            Phrase.Of($"{Kilograms(holding.DrawnKg)}")
                        )
                    ),
                ]
            ),
        };
    }

    private static Phrase Warming(JobRecord record, MassBalance balance) =>
        WarmingPotential.Of(record.Car.Refrigerant) is { } potential && balance.LostKg > 5e-5
            ? Phrase.Of(
                $"What was lost here warms like {Kilograms(balance.LostKg * potential.Fourth)} of carbon dioxide."
            )
            : Phrase.Empty;
}
