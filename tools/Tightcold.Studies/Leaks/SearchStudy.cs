using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using Tightcold.LeakTests;
using Tightcold.Numerics.Sampling;

namespace Tightcold.Studies.Leaks;

/// <summary>Plays many invented searches with a known truth: are the odds what they say, and does the advised order
/// find all leaks sooner than habit does?</summary>
public sealed record SearchStudy(
    int Systems,
    ImmutableArray<(double Said, double Was, int Count)> SpotBins,
    double SpotError,
    double RateCoverage,
    double SaidRemains,
    double WasRemains,
    double RemainsAfterFirstFound,
    SearchResult Advised,
    SearchResult FixedOrder,
    SearchResult Practice
)
{
    private const int MostChecks = 45;

    /// <summary>The search ends when another leak remains with no more than this.</summary>
    private const double GoodEnough = 0.08;

    private static readonly string[] Circuit =
    [
        "compressor shaft seal",
        "compressor body",
        "discharge hose",
        "discharge line joint",
        "condenser",
        "liquid line joint",
        "receiver-drier",
        "liquid line",
        "high-side service valve",
        "pressure switch",
        "expansion valve block",
        "evaporator",
        "suction hose",
        "suction line joint",
        "low-side service valve",
        "relief device",
    ];

    private static readonly string[] HabitOrder =
    [
        "condenser",
        "compressor shaft seal",
        "low-side service valve",
        "high-side service valve",
        "discharge hose",
        "suction hose",
        "liquid line joint",
        "discharge line joint",
        "suction line joint",
        "evaporator",
    ];

    public static SearchStudy Run(int systems, ulong seed)
    {
        var tally = new SearchTally();
        for (var i = 0; i < systems; i++)
        {
            var car = InventedCar.Draw(seed * 1_000_003 + (ulong)i, Circuit);
            Advise(car, tally, new SeededChance(seed + 31 * (ulong)i));
            Walk(car, Circuit, tally.Fixed, new SeededChance(seed + 31 * (ulong)i + 1), stopAtFirst: false);
            Walk(car, HabitOrder, tally.Practice, new SeededChance(seed + 31 * (ulong)i + 2), stopAtFirst: true);
        }
        return tally.Result(systems);
    }

    /// <summary>The advised search: always the check that would find most a minute, until little can remain.</summary>
    private static void Advise(InventedCar car, SearchTally tally, SeededChance chance)
    {
        var spots = Circuit.Select(name => new LeakSpot(name, LeakComponents.FromName(name), [])).ToArray();
        var minutes = 0.0;
        var firstFound = false;
        for (var check = 0; ; check++)
        {
            var belief = TightnessInference.Of(car.Evidence(spots, (ulong)check));
            for (var j = 0; j < spots.Length; j++)
            {
                if (spots[j].Found || belief.Spots[j].Leaking < SearchCheck.RecognisedFrom)
                    continue;
                spots[j] = spots[j] with { Found = true };
                if (!firstFound)
                    tally.FirstFound(car.Leaks.Where((leaks, k) => leaks && !spots[k].Found).Any());
                firstFound = true;
            }
            // What was just found no longer remains.
            string[] found = [.. spots.Where(spot => spot.Found).Select(spot => spot.Name)];
            var remains = belief.RemainsBesides(found);
            var done = check >= MostChecks || remains <= GoodEnough;
            var next = done
                ? null
                : SearchCheck.Rank(belief, MostChecks).FirstOrDefault(ranked => !found.Contains(ranked.Spot));
            if (next is null)
            {
                tally.Ended(belief, spots, car, remains, check, minutes);
                return;
            }
            var at = Array.FindIndex(spots, spot => spot.Name == next.Spot);
            minutes += next.Minutes;
            spots[at] = spots[at] with
            {
                Tests = spots[at].Tests.Add(car.Try(at, next.Kind, spots[at].Component, check, chance)),
            };
        }
    }

    /// <summary>One pass in a given order with the usual means; a trace is taken for a find.</summary>
    private static void Walk(
        InventedCar car,
        string[] order,
        SearchCounts counts,
        SeededChance chance,
        bool stopAtFirst
    )
    {
        var found = new bool[Circuit.Length];
        var kind = car.Means[0].Kind;
        double minutes = 0;
        var checks = 0;
        foreach (var name in order)
        {
            var at = Array.IndexOf(Circuit, name);
            var drain = name == "evaporator" && car.Means.Any(means => means.Kind == LeakTestKind.DrainSniff);
            var used = drain ? LeakTestKind.DrainSniff : kind;
            var test = car.Try(at, used, LeakComponents.FromName(name), checks, chance);
            checks++;
            minutes += used.Minutes;
            if (test.Outcome == LeakTestOutcome.Nothing)
                continue;
            found[at] = true;
            if (stopAtFirst && test.Outcome == LeakTestOutcome.Clear)
                break;
        }
        counts.Add(car, found, checks, minutes);
    }
}
