using Tightcold.Numerics.Sampling;

namespace Tightcold.Diagnosis.Leaks;

/// <summary>
/// Fuses the tests of all spots with what the car lost in total. Each spot's own belief is exact on a grid; pictures of
/// the whole car are drawn by how many spots leak (so that a rare pair is not missed), and weighed by the losses.
/// </summary>
public static class LeakInference
{
    private const int ParticlesPerCount = 500;

    /// <summary>Always considered, however unlikely by the tests: the losses may demand them.</summary>
    private const int AlwaysUpTo = 3;
    private const double NegligibleCount = 1e-4;

    /// <summary>Nobody searches a car without a reason: where no loss is written down, “nothing leaks” counts this much.</summary>
    private const double SearchedForNothing = 0.2;

    public static LeakBelief Of(LeakCase leakCase)
    {
        var spots = leakCase.AllSpots;
        var grids = new SpotGrid[spots.Length];
        for (var j = 0; j < spots.Length; j++) grids[j] = new SpotGrid(spots[j], leakCase.Setting);
        var suffix = Suffix(grids);
        var counts = Counts(suffix, spots.Length);
        var particles = new LeakParticles(counts.Length * ParticlesPerCount, spots.Length);
        var chance = new SeededChance(leakCase.Seed * 2654435761 + 17);
        var at = 0;
        foreach (var k in counts)
            for (var i = 0; i < ParticlesPerCount; i++, at++)
            {
                Draw(grids, suffix, k, particles, at, chance);
                particles.Weights[at] = Math.Log(suffix[0, k] * (k == 0 && leakCase.Losses.IsEmpty ? SearchedForNothing : 1)) + Losses(leakCase, particles.TotalBefore[at], particles.TotalAfter[at]);
            }
        Normalise(particles.Weights);
        return new LeakBelief(leakCase, spots, grids, particles);
    }

    /// <summary>Elementary symmetric sums of the odds of spots j and later: the weight of “k of them leak”.</summary>
    private static double[,] Suffix(SpotGrid[] grids)
    {
        var sums = new double[grids.Length + 1, grids.Length + 2];
        sums[grids.Length, 0] = 1;
        for (var j = grids.Length - 1; j >= 0; j--)
            for (var k = 0; k <= grids.Length - j; k++)
                sums[j, k] = sums[j + 1, k] + (k > 0 ? grids[j].Odds * sums[j + 1, k - 1] : 0);
        return sums;
    }

    private static int[] Counts(double[,] suffix, int spots)
    {
        var total = 0.0;
        for (var k = 0; k <= spots; k++) total += suffix[0, k];
        return [.. Enumerable.Range(0, spots + 1).Where(k => k <= AlwaysUpTo || suffix[0, k] > NegligibleCount * total)];
    }

    /// <summary>Draws which k spots leak in proportion to the product of their odds, then every rate.</summary>
    private static void Draw(SpotGrid[] grids, double[,] suffix, int k, LeakParticles particles, int at, SeededChance chance)
    {
        double before = 0, after = 0;
        for (var j = 0; j < grids.Length; j++)
        {
            var leaks = k > 0 && chance.Uniform() * suffix[j, k] < grids[j].Odds * suffix[j + 1, k - 1];
            if (leaks) k--;
            var index = at * grids.Length + j;
            particles.LeaksBefore[index] = leaks;
            var rate = grids[j].Draw(leaks, chance.Uniform());
            particles.Before[index] = (byte)rate;
            before += SpotGrid.Rates[rate];
            if (grids[j].Mended)
            {
                leaks = chance.Chance(grids[j].FailedProbability);
                rate = grids[j].DrawAfter(leaks, chance.Uniform());
            }
            particles.LeaksAfter[index] = leaks;
            particles.After[index] = (byte)rate;
            after += SpotGrid.Rates[rate];
        }
        particles.TotalBefore[at] = before;
        particles.TotalAfter[at] = after;
    }

    private static double Losses(LeakCase leakCase, double before, double after)
    {
        var log = leakCase.Hold is { } hold ? hold.LogLikelihood(hold.AfterRepair ? after : before) : 0;
        foreach (var loss in leakCase.Losses) log += loss.LogLikelihood(loss.AfterRepair ? after : before);
        return log;
    }

    private static void Normalise(double[] logWeights)
    {
        var top = logWeights.Max();
        var sum = 0.0;
        for (var i = 0; i < logWeights.Length; i++) sum += logWeights[i] = Math.Exp(logWeights[i] - top);
        for (var i = 0; i < logWeights.Length; i++) logWeights[i] /= sum;
    }
}
