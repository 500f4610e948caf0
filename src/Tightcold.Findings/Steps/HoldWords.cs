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

    private static readonly ImmutableArray<string> Looks =
    [
        "it stood still",
        "as gas from the oil gives",
        "as the temperature moves it",
        "as a leak in the car gives",
        "as a leak in hose or gauge set gives",
        "as water boiling off gives",
        "as a leak with gas from the oil gives",
        "as a leak with water gives",
        "as a leak gives, masked or enlarged by temperature",
    ];

    /// <summary>Below this nothing is called what it looks like.</summary>
    private const double LooksFrom = 0.5;

    /// <summary>What one hold looks like taken by itself. Only while the proof stands open: the one number for tight
    /// weighs this hold with everything else.</summary>
    public static FindingTable Table(HoldOdds odds) =>
        new(
            "What could explain this hold, taken by itself",
            ["Explanation", "Odds"],
            [
                .. Enumerable
                    .Range(0, Names.Length)
                    .OrderByDescending(i => odds.Odds[i])
                    .Where(i => odds.Odds[i] >= 0.005)
                    .Select(i => ImmutableArray.Create(Phrase.Words(Names[i]), Phrase.Of($"{Odds(odds.Odds[i])}"))),
            ]
        );

    /// <summary>What it looks like, without odds of its own.</summary>
    public static string LooksLike(HoldOdds odds)
    {
        ArgumentNullException.ThrowIfNull(odds);
        var most = Enumerable.Range(0, Looks.Length).MaxBy(i => odds.Odds[i]);
        return odds.Odds[most] >= LooksFrom ? Looks[most] : "several things could explain that";
    }
}
