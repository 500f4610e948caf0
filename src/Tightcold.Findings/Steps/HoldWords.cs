using System.Collections.Immutable;
using Tightcold.Procedures.Hold;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>Explanations of a hold in the words of the trade.</summary>
public static class HoldWords
{
    private static readonly ImmutableArray<string> Names =
    [
        "tight",
        "tight, gas from the oil",
        "tight, temperature moved it",
        "leak in the car",
        "leak in hose or gauge set",
        "water boiling off",
        "leak, and gas from the oil",
        "leak, and water",
        "leak, masked or enlarged by temperature",
    ];

    public static string Name(HoldExplanation explanation) => Names[(int)explanation];

    public static FindingTable Table(HoldOdds odds) =>
        new(
            "What explains this hold",
            ["Explanation", "Odds"],
            [
                .. Enumerable
                    .Range(0, Names.Length)
                    .OrderByDescending(i => odds.Odds[i])
                    .Where(i => odds.Odds[i] >= 0.005)
                    .Select(i => ImmutableArray.Create(Phrase.Words(Names[i]), Phrase.Of($"{Odds(odds.Odds[i])}"))),
            ]
        );

    /// <summary>The two or three that carry the odds, in one line.</summary>
    public static Phrase Leading(HoldOdds odds)
    {
        var phrase = Phrase.Empty;
        foreach (
            var i in Enumerable
                .Range(0, Names.Length)
                .OrderByDescending(i => odds.Odds[i])
                .Take(3)
                .Where(i => odds.Odds[i] >= 0.03)
        )
            phrase = phrase.IsEmpty
                ? Phrase.Of($"{Names[i]} {Odds(odds.Odds[i])}")
                : Phrase.Of($"{phrase}, {Names[i]} {Odds(odds.Odds[i])}");
        return phrase;
    }
}
