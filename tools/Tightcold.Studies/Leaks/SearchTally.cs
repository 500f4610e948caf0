using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;

namespace Tightcold.Studies.Leaks;

/// <summary>Gathers what invented searches showed.</summary>
internal sealed class SearchTally
{
    private readonly double[] said = new double[10];
    private readonly double[] was = new double[10];
    private readonly int[] count = new int[10];
    private readonly SearchCounts advised = new();
    private double saidRemains,
        wasRemains,
        covered,
        rated;
    private int ended,
        firsts,
        firstsWithMore;

    public SearchCounts Fixed { get; } = new();
    public SearchCounts Practice { get; } = new();

    public void FirstFound(bool moreLeft)
    {
        firsts++;
        if (moreLeft)
            firstsWithMore++;
    }

    public void Ended(
        TightnessBelief belief,
        LeakSpot[] spots,
        InventedCar car,
        double remains,
        int checks,
        double minutes
    )
    {
        ended++;
        saidRemains += remains;
        var left = false;
        var found = new bool[spots.Length];
        for (var j = 0; j < spots.Length; j++)
        {
            var odds = belief.Spots[j].Leaking;
            var bin = Math.Min(9, (int)(10 * odds));
            said[bin] += odds;
            was[bin] += car.Leaks[j] ? 1 : 0;
            count[bin]++;
            found[j] = spots[j].Found;
            left |= car.Leaks[j] && !spots[j].Found;
            if (!car.Leaks[j] || odds < 0.5)
                continue;
            rated++;
            var rate = belief.Spots[j].RateKgPerS;
            if (car.Rates[j] >= rate.P05 && car.Rates[j] <= rate.P95)
                covered++;
        }
        left |= car.LeaksElsewhere;
        if (left)
            wasRemains++;
        advised.Add(car, found, checks, minutes);
    }

    public SearchStudy Result(int systems)
    {
        var bins = Enumerable
            .Range(0, 10)
            .Where(i => count[i] > 0)
            .Select(i => (said[i] / count[i], was[i] / count[i], count[i]))
            .ToImmutableArray();
        var total = bins.Sum(bin => bin.Item3);
        return new(
            systems,
            bins,
            bins.Sum(bin => Math.Abs(bin.Item1 - bin.Item2) * bin.Item3) / Math.Max(1, total),
            rated > 0 ? covered / rated : 1,
            saidRemains / Math.Max(1, ended),
            wasRemains / Math.Max(1, ended),
            firsts > 0 ? (double)firstsWithMore / firsts : 0,
            advised.Result(),
            Fixed.Result(),
            Practice.Result()
        );
    }
}
