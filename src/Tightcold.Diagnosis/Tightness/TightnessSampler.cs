using Tightcold.Numerics.Distributions;
using Tightcold.Numerics.Sampling;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>
/// Pictures of the whole car, in strata by how many places leak (so that a rare pair is not missed). One leak of each
/// picture, chosen at random, is not drawn but summed over all its rates: the sum is smooth where a drawn rate would
/// have to hit by luck. Every draw is a fixed function of seed, picture and place, so that two beliefs that differ by a
/// test are weighed on the same pictures.
/// </summary>
internal sealed class TightnessSampler
{
    /// <summary>A repair that failed is rare and decides: this share of pictures draws it at the least, and is
    /// weighed down.</summary>
    private const double LeastFailedShare = 0.25;

    /// <summary>A car's seals are of one age and make: all its seeps are larger or smaller together. Declared new cars
    /// lose 4 to 16 g/yr ([cfr86-1867-12] counts no less than 8.3, electric 4.1), parked ones 4 to 130, aged ones 52
    /// in the mean; median and spread that hold these are assumed.</summary>
    private const double MedianSeep = 0.65,
        SeepSpread = 0.95;

    private const double NegligibleCount = 1e-4;
    private const int AlwaysUpTo = 3;
    private const int GlanceShare = 8,
        LeastPictures = 160,
        SharedPictures = 2600;

    private readonly SpotModel[] spots;
    private readonly CircuitTest[] tests;
    private readonly ulong seed;
    private readonly double logVolume,
        volumeSpread;
    private readonly TightnessQuestion question;
    private readonly bool glance;

    public TightnessSampler(SpotModel[] spots, CircuitTest[] tests, CircuitSize size, TightnessQuestion question)
    {
        this.spots = spots;
        this.tests = tests;
        seed = question.Seed * 2654435761 + 17;
        logVolume = Math.Log(size.VolumeM3);
        volumeSpread = size.VolumeSpread;
        this.question = question;
        glance = question.Effort == TightnessEffort.Glance;
    }

    /// <summary>A picture without its summed-over leak.</summary>
    private sealed class Bare(int spots)
    {
        public readonly double[] Before = new double[spots],
            Now = new double[spots],
            Law = new double[spots];
        public readonly bool[] Leaks = new bool[spots],
            LeaksNow = new bool[spots],
            Shuts = new bool[spots],
            Runs = new bool[spots];
        public int Summed;
        public bool SummedFailed;
        public double LogWeight,
            LogVolume;
    }

    /// <summary>Draws the pictures, weighs them and sums over them.</summary>
    /// <param name="nothingLeaks">What "nothing leaks" counts before the first test.</param>
    /// <param name="wanted">Equal pictures to hand out besides; 0 for none.</param>
    public (TightnessSums Sums, Pictures? Pictures) Run(double nothingLeaks, int wanted)
    {
        var (bare, grid) = Draw(Suffix(), nothingLeaks);
        var top = double.NegativeInfinity;
        foreach (var log in grid)
            top = Math.Max(top, log);
        var total = 0.0;
        for (var i = 0; i < grid.Length; i++)
            total += grid[i] = Math.Exp(grid[i] - top);
        var sums = new TightnessSums(spots.Length, question);
        for (var i = 0; i < bare.Length; i++)
            Sum(bare[i], i, grid.AsSpan(i * RateGrid.Count, RateGrid.Count), total, sums);
        return (sums, wanted > 0 ? Resample(bare, grid, total, wanted) : null);
    }

    private void Sum(Bare picture, int i, ReadOnlySpan<double> weights, double total, TightnessSums sums)
    {
        double whole = 0,
            now = 0,
            before = 0,
            explained = 0,
            holes = 0;
        foreach (var weight in weights)
            whole += weight / total;
        if (!(whole > 1e-12))
            return;
        var another = false;
        for (var j = 0; j < spots.Length; j++)
        {
            if (picture.Leaks[j])
                sums.LeaksBefore[j] += whole;
            if (picture.LeaksNow[j])
                sums.LeaksNow[j] += whole;
            if (spots[j].Role == SpotRole.HoseSet)
                continue;
            another |= picture.LeaksNow[j] && !(spots[j].Spot.Found && spots[j].MendedAt is null);
            if (j == picture.Summed)
                continue;
            now += picture.Now[j];
            if (spots[j].Role != SpotRole.Reassembly)
                before += picture.Before[j];
            if (Known(j))
                explained += picture.Before[j];
            if (picture.LeaksNow[j])
                holes += picture.Now[j];
            if (!picture.Leaks[j])
                continue;
            sums.Rates[j * RateGrid.Count + RateGrid.Nearest(Math.Log(picture.Before[j]))] += whole;
            if (picture.LeaksNow[j])
                sums.TooMuch[j] += whole * (1 - sums.CoolsAt(Math.Log(picture.Now[j])));
        }
        if (another)
            sums.AnotherRemains += whole;
        sums.Weight += whole;
        var summed = picture.Summed;
        var onCar = summed >= 0 && spots[summed].Role != SpotRole.HoseSet;
        var shift = Shift(i);
        for (var r = 0; r < weights.Length; r++)
        {
            var weight = weights[r] / total;
            if (!(weight > 1e-13))
                continue;
            double totalNow = now,
                totalBefore = before,
                totalHoles = holes;
            if (summed >= 0)
            {
                var rate = RateGrid.Values[r] * shift;
                sums.Rates[summed * RateGrid.Count + r] += weight;
                if (onCar)
                {
                    totalNow += picture.LeaksNow[summed] ? rate : Math.Min(rate, picture.Now[summed]);
                    if (spots[summed].Role != SpotRole.Reassembly)
                        totalBefore += rate;
                    if (picture.LeaksNow[summed])
                        totalHoles += rate;
                    if (picture.LeaksNow[summed])
                        sums.TooMuch[summed] += weight * (1 - sums.CoolsAt(Math.Log(rate)));
                }
            }
            var logNow = Math.Log(totalNow);
            sums.Cools += weight * sums.CoolsAt(logNow);
            sums.TotalNow[TotalGrid.At(logNow)] += weight;
            sums.TotalBefore[TotalGrid.At(Math.Log(totalBefore))] += weight;
            if (totalHoles > 0)
                sums.HolesNow[TotalGrid.At(Math.Log(totalHoles))] += weight;
            else
                sums.NoHoles += weight;
            var share = (explained + (onCar && Known(summed) ? totalBefore - before : 0)) / totalBefore;
            sums.Explained[(int)(100 * Math.Clamp(share, 0, 1))] += weight;
        }
    }

    private bool Known(int j) => spots[j].Spot.Found || spots[j].MendedAt is not null;

    private (Bare[] Bare, double[] LogWeights) Draw(double[,] suffix, double nothingLeaks)
    {
        var all = new List<Bare>();
        var sizes = Sizes(suffix);
        foreach (var (k, size) in sizes)
            for (var i = 0; i < size; i++)
            {
                var picture = One(suffix, k, i, size);
                picture.LogWeight += Math.Log(suffix[0, k] * (k == 0 ? nothingLeaks : 1) / size);
                all.Add(picture);
            }
        Bare[] bare = [.. all];
        var grid = new double[bare.Length * RateGrid.Count];
        double[] fixedSum = new double[tests.Length],
            slope = new double[tests.Length];
        for (var i = 0; i < bare.Length; i++)
            Weigh(bare[i], i, grid.AsSpan(i * RateGrid.Count, RateGrid.Count), fixedSum, slope);
        return (bare, grid);
    }

    private List<(int Leaking, int Size)> Sizes(double[,] suffix)
    {
        var total = 0.0;
        for (var k = 0; k <= spots.Length; k++)
            total += suffix[0, k];
        var kept = Enumerable
            .Range(0, spots.Length + 1)
            .Where(k => k <= AlwaysUpTo || suffix[0, k] >= NegligibleCount * total)
            .ToArray();
        // Where the checks say that three leak, three must be drawn well: by the root of what a stratum weighs, and
        // none so thin that the tests could not ask for it.
        var roots = kept.Sum(k => Math.Sqrt(suffix[0, k] / total));
        var sizes = new List<(int, int)>();
        foreach (var k in kept)
        {
            var size = LeastPictures + (int)(SharedPictures * Math.Sqrt(suffix[0, k] / total) / roots);
            sizes.Add((k, glance ? size / GlanceShare : size));
        }
        return sizes;
    }

    /// <summary>Elementary symmetric sums of the odds of places j and later: the weight of "k of them leak".</summary>
    private double[,] Suffix()
    {
        var sums = new double[spots.Length + 1, spots.Length + 2];
        sums[spots.Length, 0] = 1;
        for (var j = spots.Length - 1; j >= 0; j--)
        for (var k = 0; k <= spots.Length - j; k++)
            sums[j, k] = sums[j + 1, k] + (k > 0 ? spots[j].Odds * sums[j + 1, k - 1] : 0);
        return sums;
    }

    private Bare One(double[,] suffix, int k, int i, int size)
    {
        var picture = new Bare(spots.Length)
        {
            LogVolume =
                logVolume
                + volumeSpread * Normal.Quantile(((i * 0.6180339887498949 + Uniform(0, 991, k)) % 1 * 0.998) + 0.001),
            Summed = -1,
        };
        var seeps = MedianSeep * Math.Exp(SeepSpread * Normal.Quantile(Uniform(i, 994, k)));
        var left = k;
        // Which of the k is summed over: drawn beforehand, so that it depends on nothing else.
        var summed = k == 0 ? -1 : (int)(Uniform(i, 992, k) * k);
        for (var j = 0; j < spots.Length; j++)
        {
            var spot = spots[j];
            // The first place is drawn evenly over the pictures of a stratum.
            var u = j == 0 ? (i + Uniform(i, j, k)) / size : Uniform(i, j, k);
            var leaks = left > 0 && u * suffix[j, left] < spot.Odds * suffix[j + 1, left - 1];
            picture.Leaks[j] = leaks;
            var seep = seeps * SpotModel.Pick(spot.SeepCumulative, Uniform(i, j, 101), Uniform(i, j, 102));
            picture.Before[j] = picture.Now[j] = seep;
            if (!leaks)
                continue;
            left--;
            // Leaks that matter are narrow and slow, nearer the viscous law; few are openings.
            picture.Law[j] = CircuitTest.LawAt(Uniform(i, j, 103));
            picture.Shuts[j] = Uniform(i, j, 104) < spot.Habit.ShutsUnderVacuum;
            picture.Runs[j] = Uniform(i, j, 105) < spot.Habit.OpensRunning;
            var failed = Fails(spot, picture, Uniform(i, j, 106));
            picture.LeaksNow[j] = failed || spot.MendedAt is null;
            if (k - left - 1 == summed)
            {
                picture.Summed = j;
                picture.SummedFailed = failed;
                continue;
            }
            var rate = SpotModel.Pick(
                failed ? spot.FailedCumulative : spot.HeldCumulative,
                Uniform(i, j, 107),
                Uniform(i, j, 102)
            );
            picture.Before[j] = rate;
            picture.Now[j] = picture.LeaksNow[j] ? rate : Math.Min(rate, seep);
        }
        return picture;
    }

    private static bool Fails(SpotModel spot, Bare picture, double uniform)
    {
        if (spot.MendedAt is null)
            return false;
        var truth = spot.FailedMass / (spot.FailedMass + spot.HeldMass);
        var share = Math.Max(truth, LeastFailedShare);
        var failed = uniform < share;
        picture.LogWeight += Math.Log(failed ? truth / share : (1 - truth) / (1 - share));
        return failed;
    }

    /// <summary>ln weight of a picture for each rate of its summed leak; a picture without one fills the first
    /// entry.</summary>
    private void Weigh(Bare picture, int i, Span<double> log, double[] fixedSum, double[] slope)
    {
        log.Fill(double.NegativeInfinity);
        for (var e = 0; e < tests.Length; e++)
        {
            fixedSum[e] = slope[e] = 0;
            for (var j = 0; j < spots.Length; j++)
            {
                var role = spots[j].Role;
                if (role == SpotRole.HoseSet ? !tests[e].WithHoses : tests[e].HosesAlone)
                    continue;
                if (spots[j].Onset > tests[e].Time)
                    continue;
                var factor = Factor(picture, j, tests[e]);
                var after = spots[j].MendedAt is { } mended && tests[e].Time > mended;
                if (j == picture.Summed && (!after || picture.LeaksNow[j]))
                    slope[e] = factor;
                else
                    fixedSum[e] += factor * (after ? picture.Now[j] : picture.Before[j]);
            }
            fixedSum[e] += 1e-30;
        }
        if (picture.Summed < 0)
        {
            log[0] = picture.LogWeight;
            for (var e = 0; e < tests.Length; e++)
                log[0] += tests[e].At(fixedSum[e], picture.LogVolume);
            return;
        }
        var spot = spots[picture.Summed];
        var masses = picture.SummedFailed ? spot.Failed : spot.Held;
        var sum = picture.SummedFailed ? spot.FailedMass : spot.HeldMass;
        var shift = Shift(i);
        for (var r = 0; r < RateGrid.Count; r++)
        {
            if (!(masses[r] > 1e-10 * sum))
                continue;
            var value = picture.LogWeight + Math.Log(masses[r] / sum);
            for (var e = 0; e < tests.Length; e++)
                value += tests[e].At(fixedSum[e] + slope[e] * RateGrid.Values[r] * shift, picture.LogVolume);
            log[r] = value;
        }
    }

    /// <summary>Each picture's grid of rates lies elsewhere between two entries.</summary>
    private double Shift(int i) => Math.Exp((Uniform(i, 993, 0) - 0.5) * RateGrid.StepLog);

    private static double Factor(Bare picture, int j, CircuitTest test)
    {
        if (test.Kind == CircuitTestKind.Loss)
            return 1;
        if (!picture.Leaks[j])
            return test.SeepFactor;
        var factor = Math.Exp(test.LogFactor(picture.Law[j]));
        if (test.Kind == CircuitTestKind.Vacuum && picture.Shuts[j])
            factor *= SpotHabit.ShutShare;
        return picture.Runs[j] ? factor * SpotHabit.RestShare : factor;
    }

    /// <summary>Equal pictures by systematic resampling.</summary>
    private Pictures Resample(Bare[] bare, double[] weights, double total, int wanted)
    {
        var result = new Pictures(wanted, spots.Length);
        double reached = 0,
            next = 0.5;
        var at = 0;
        for (var w = 0; w < weights.Length && at < wanted; w++)
        {
            reached += weights[w] / total * wanted;
            while (at < wanted && next < reached)
            {
                Take(bare[w / RateGrid.Count], w / RateGrid.Count, w % RateGrid.Count, result, at);
                at++;
                next++;
            }
        }
        while (at < wanted)
            Take(bare[^1], bare.Length - 1, 0, result, at++);
        return result;
    }

    private void Take(Bare picture, int i, int r, Pictures result, int at)
    {
        result.LogVolume[at] = picture.LogVolume;
        for (var j = 0; j < spots.Length; j++)
        {
            var index = at * spots.Length + j;
            double before = picture.Before[j],
                now = picture.Now[j];
            if (j == picture.Summed)
            {
                before = RateGrid.Values[r] * Shift(i);
                now = picture.LeaksNow[j] ? before : Math.Min(before, picture.Now[j]);
            }
            result.Before[index] = before;
            result.Now[index] = now;
            result.LeaksBefore[index] = picture.Leaks[j];
            result.LeaksNow[index] = picture.LeaksNow[j];
            result.Law[index] = picture.Leaks[j] ? picture.Law[j] : 0.5;
            result.Shuts[index] = picture.Shuts[j];
            result.Runs[index] = picture.Runs[j];
            if (spots[j].Role == SpotRole.HoseSet)
                continue;
            result.TotalBefore[at] += spots[j].Role == SpotRole.Reassembly ? 0 : before;
            result.TotalNow[at] += now;
        }
    }

    /// <summary>A number in (0, 1) that is a fixed function of seed, picture, place and use: the mixing step of Steele,
    /// Lea and Flood (2014).</summary>
    private double Uniform(int i, int j, int use) =>
        SeededChance.Share(
            SeededChance.Mixed(
                seed
                    + SeededChance.Step * (ulong)(i + 1)
                    + 0xD1B54A32D192ED03 * (ulong)(j + 1)
                    + 0x8CB92BA72F3D8DD7 * (ulong)(use + 1)
            )
        );
}
