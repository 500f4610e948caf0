using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Mass;
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
                $"Recovered {Kilograms(balance.RecoveredKg)}, drawn from cans "
                    + $"{Kilograms(touched.Sum(holding => holding.DrawnKg))}, in the system "
                    + $"{Kilograms(balance.SystemKg)}, lost {Kilograms(balance.LostKg)}."
            )
        )
        {
            Why = Phrase
                .Of(
                    $"Came in {Kilograms(balance.CameInKg)} ({Kilograms(balance.CameInWithCarKg)} with the car, "
                        + $"{Kilograms(balance.CameInContainersKg)} in containers); accounted for "
                        + $"{Kilograms(balance.AccountedKg)}."
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
            Missing = [.. missing, .. NotWritten(picture)],
            Table = new(
                "By container",
                ["Container", "Held at first", "Holds now", "Drawn"],
                [
                    .. balance.Holdings.Values.Select(holding =>
                        ImmutableArray.Create(
                            Phrase.Verbatim(holding.Container.Name),
                            Phrase.Of($"{Kilograms(holding.FirstNetKg)}"),
                            Phrase.Of($"{Kilograms(holding.NetKg)}"),
                            Phrase.Of($"{Kilograms(holding.DrawnKg)}")
                        )
                    ),
                ]
            ),
        };
    }

    /// <summary>What the place wants in the record and the journal does not hold.</summary>
    private static IEnumerable<Phrase> NotWritten(JobPicture picture) =>
        RecordSheet.Of(picture) is { } sheet
        && sheet.Rows.Where(row => row.Value.IsEmpty).Select(row => Phrase.Within(row.Label)).ToArray()
            is { Length: > 0 } open
            ? [Phrase.Of($"for the record that the place asks for: {Phrase.Join("; ", open)}")]
            : [];

    private static Phrase Warming(JobRecord record, MassBalance balance) =>
        balance.LostKg <= 5e-5 ? Phrase.Empty
        : LawAndSubstance.PlaceOf(record).Warming(record.Car.Refrigerant) is { } figure
            ? Phrase.Of(
                $"What was lost here warms like some {Kilograms(OneFigure.Of(balance.LostKg * figure.Potential))} of "
                    + $"carbon dioxide ({figure.Words})."
            )
        : Phrase.Empty;
}
