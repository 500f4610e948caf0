using System.Collections.Immutable;

namespace Tightcold.Diagnosis.Leaks;

/// <summary>Odds and rates of every spot and of the whole car.</summary>
public sealed class LeakBelief
{
    private readonly SpotGrid[] grids;
    private readonly LeakParticles particles;
    private readonly Lazy<LeakQuantiles> explained;

    internal LeakBelief(LeakCase leakCase, ImmutableArray<LeakSpot> spots, SpotGrid[] grids, LeakParticles particles)
    {
        Case = leakCase;
        this.grids = grids;
        this.particles = particles;
        Spots = [.. spots.Select((spot, j) => Belief(spot, j))];
        Total = LeakQuantiles.Of(Weighted(particles.TotalBefore));
        Remaining = LeakQuantiles.Of(Weighted(particles.TotalAfter));
        AnotherRemains = Share(AnyUnfound);
        explained = new(() => LeakQuantiles.Of(Weighted([.. Enumerable.Range(0, particles.Count).Select(FoundShare)])));
    }

    public LeakCase Case { get; }

    /// <summary>Listed spots in their order, and last the place not on the map.</summary>
    public ImmutableArray<SpotBelief> Spots { get; }

    /// <summary>Rate of the whole car at rest before repairs, kg/s.</summary>
    public LeakQuantiles Total { get; }

    /// <summary>Rate of the whole car at rest as it is now, kg/s.</summary>
    public LeakQuantiles Remaining { get; }

    /// <summary>Probability that a spot leaks now which nobody has found: another remains.</summary>
    public double AnotherRemains { get; }

    /// <summary>Share of the whole rate that the found and mended spots explain.</summary>
    public LeakQuantiles ExplainedByFound => explained.Value;

    /// <summary>Effective number of pictures behind these figures; below about 50 the odds are rough.</summary>
    public double Effective => 1 / particles.Weights.Sum(weight => weight * weight);

    /// <summary>Weighted totals as they are now, kg/s: for forecasts and costs.</summary>
    public IEnumerable<(double KgPerS, double Weight)> RemainingSamples => Weighted(particles.TotalAfter);

    /// <summary>Weighted totals if these spots were mended as well as such repairs go, kg/s.</summary>
    public IEnumerable<(double KgPerS, double Weight)> SamplesAfterMending(IReadOnlyCollection<string> names)
    {
        for (var i = 0; i < particles.Count; i++)
        {
            var total = 0.0;
            for (var j = 0; j < grids.Length; j++)
            {
                var mended = names.Contains(Case.AllSpots[j].Name, StringComparer.OrdinalIgnoreCase);
                // A repair that fails leaves the leak as it was; one in how many is the kind's habit.
                total += mended && particles.LeaksAfter[i * grids.Length + j] && (i * 7919 + j * 104729) % 1000 >= 1000 * grids[j].Prior.RepairFails
                    ? grids[j].Prior.SeepKgPerS : SpotGrid.Rates[particles.After[i * grids.Length + j]];
            }
            yield return (total, particles.Weights[i]);
        }
    }

    /// <summary>Belief over the rate grid at one spot as it is now: for the worth of a test.</summary>
    internal (double[] Leaking, double[] Seeping) RateBelief(int spot)
    {
        double[] leaking = new double[SpotGrid.Count], seeping = new double[SpotGrid.Count];
        for (var i = 0; i < particles.Count; i++)
        {
            var index = i * grids.Length + spot;
            (particles.LeaksAfter[index] ? leaking : seeping)[particles.After[index]] += particles.Weights[i];
        }
        return (leaking, seeping);
    }

    /// <summary>Probability that a spot leaks now which is not marked as found in <paramref name="known"/>.</summary>
    public double RemainsBesides(IReadOnlyList<LeakSpot> known) => Share(i =>
    {
        for (var j = 0; j < grids.Length; j++)
            if (particles.LeaksAfter[i * grids.Length + j] && !(j < known.Count && known[j].Found)) return true;
        return false;
    });

    private SpotBelief Belief(LeakSpot spot, int j)
    {
        var mended = grids[j].Mended;
        var rates = new double[SpotGrid.Count];
        double now = 0, before = 0;
        for (var i = 0; i < particles.Count; i++)
        {
            var index = i * grids.Length + j;
            if (particles.LeaksAfter[index]) now += particles.Weights[i];
            if (!particles.LeaksBefore[index]) continue;
            before += particles.Weights[i];
            rates[particles.Before[index]] += particles.Weights[i];
        }
        return new(spot, now, mended ? before : now, LeakQuantiles.Of(rates.Select((weight, r) => (SpotGrid.Rates[r], weight))), grids[j].OpenedOnceOdds);
    }

    private bool AnyUnfound(int i)
    {
        for (var j = 0; j < grids.Length; j++)
            if (particles.LeaksAfter[i * grids.Length + j] && !Spots[j].Spot.Found) return true;
        return false;
    }

    private double FoundShare(int i)
    {
        var found = 0.0;
        for (var j = 0; j < grids.Length; j++)
            if (Spots[j].Spot.Found || grids[j].Mended) found += SpotGrid.Rates[particles.Before[i * grids.Length + j]];
        return found / particles.TotalBefore[i];
    }

    private double Share(Func<int, bool> holds)
    {
        var sum = 0.0;
        for (var i = 0; i < particles.Count; i++) if (holds(i)) sum += particles.Weights[i];
        return Math.Clamp(sum, 0, 1);
    }

    private IEnumerable<(double, double)> Weighted(double[] values) => values.Select((value, i) => (value, particles.Weights[i]));
}
