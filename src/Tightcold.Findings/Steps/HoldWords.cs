using System.Collections.Immutable;
using Tightcold.Procedures.Hold;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>Explanations of a hold in the words of the trade.</summary>
public static class HoldWords
{
    private static readonly ImmutableArray<Phrase> Names =
    [
        Phrase.Words("tight"),
        Phrase.Words("tight, gas from the oil"),
        Phrase.Words("tight, temperature moved it"),
        Phrase.Words("leak in the car"),
        Phrase.Words("leak in hose or gauge set"),
        Phrase.Words("water boiling off"),
        Phrase.Words("leak, and gas from the oil"),
        Phrase.Words("leak, and water"),
        Phrase.Words("leak, masked or enlarged by temperature"),
    ];

    public static Phrase Name(HoldExplanation explanation) => Names[(int)explanation];

    private static readonly ImmutableArray<Phrase> Looks =
    [
        Phrase.Words("it stood still"),
        Phrase.Words("as gas from the oil gives"),
        Phrase.Words("as the temperature moves it"),
        Phrase.Words("as a leak in the car gives"),
        Phrase.Words("as a leak in hose or gauge set gives"),
        Phrase.Words("as water boiling off gives"),
        Phrase.Words("as a leak with gas from the oil gives"),
        Phrase.Words("as a leak with water gives"),
        Phrase.Words("as a leak gives, masked or enlarged by temperature"),
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
                    .Select(i => ImmutableArray.Create(Names[i], Phrase.Of($"{Odds(odds.Odds[i])}"))),
            ]
        );

    /// <summary>What it looks like, without odds of its own.</summary>
    public static Phrase LooksLike(HoldOdds odds)
    {
        ArgumentNullException.ThrowIfNull(odds);
        var most = Enumerable.Range(0, Looks.Length).MaxBy(i => odds.Odds[i]);
        return odds.Odds[most] >= LooksFrom ? Looks[most] : Phrase.Words("several things could explain that");
    }
}
