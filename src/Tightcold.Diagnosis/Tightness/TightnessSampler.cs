using Tightcold.Numerics.Distributions;
using Tightcold.Numerics.Interpolation;
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
    private readonly CircuitSize size;
    private readonly TightnessQuestion question;
    private readonly double nothingLeaks;
    private readonly ulong seed;
    private readonly double logVolume;
    private readonly bool glance;

    /// <summary>Of each place: what it is to the car; whether it was found or mended; whether it was found and not
    /// mended.</summary>
    private readonly SpotRole[] roles;
    private readonly bool[] known,
        open;

    /// <param name="nothingLeaks">What "nothing leaks" counts before the first test.</param>
    public TightnessSampler(
        SpotModel[] spots,
        CircuitTest[] tests,
        CircuitSize size,
        TightnessQuestion question,
        double nothingLeaks
    )
    {
        this.spots = spots;
        this.tests = tests;
        this.size = size;
        this.question = question;
        this.nothingLeaks = nothingLeaks;
        seed = question.Seed * 2654435761 + 17;
        logVolume = Math.Log(size.VolumeM3);
        glance = question.Effort == TightnessEffort.Glance;
        roles = Array.ConvertAll(spots, spot => spot.Role);
        known = Array.ConvertAll(spots, spot => spot.Spot.Found || spot.MendedAt is not null);
        open = Array.ConvertAll(spots, spot => spot.Spot.Found && spot.MendedAt is null);
    }

    /// <summary>Whether another one's sums and pictures would be the same, figure by figure.</summary>
    public bool AsksTheSame(TightnessSampler other) =>
        question == other.question
        && nothingLeaks == other.nothingLeaks
        && size.VolumeM3 == other.size.VolumeM3
        && size.VolumeSpread == other.size.VolumeSpread
        && spots.Length == other.spots.Length
        && tests.Length == other.tests.Length
        && spots.Zip(other.spots).All(pair => pair.First.SaysTheSame(pair.Second))
        && tests.Zip(other.tests).All(pair => pair.First.SaysTheSame(pair.Second));

    /// <summary>Pictures without their summed-over leak, a row of all places for each.</summary>
    private sealed class Drawn(int count, int spots)
    {
        public readonly int Count = count;
        public readonly double[] Before = new double[count * spots],
            Now = new double[count * spots],
            Law = new double[count * spots];
        public readonly bool[] Leaks = new bool[count * spots],
            LeaksNow = new bool[count * spots],
            Shuts = new bool[count * spots],
            Runs = new bool[count * spots];
        public readonly int[] Summed = new int[count];
        public readonly bool[] SummedFailed = new bool[count];
        public readonly double[] LogWeight = new double[count],
            LogVolume = new double[count];
    }

    /// <summary>Draws the pictures, weighs them and sums over them.</summary>
    /// <param name="wanted">Equal pictures to hand out besides; 0 for none.</param>
    public (TightnessSums Sums, Pictures? Pictures) Run(int wanted)
    {
        var drawn = Draw(Suffix());
        var weights = Weights(drawn);
        var total = 0.0;
        foreach (var weight in weights)
            total += weight;
        var sums = new TightnessSums(spots.Length, TightnessSums.CoolsOver(question));
        var row = new double[RateGrid.Count];
        for (var i = 0; i < drawn.Count; i++)
        {
            Array.Copy(weights, i * row.Length, row, 0, row.Length);
            Sum(drawn, i, row, total, sums);
        }
        return (sums, wanted > 0 ? Resample(drawn, weights, total, wanted) : null);
    }

    private void Sum(Drawn drawn, int i, double[] weights, double total, TightnessSums sums)
    {
        double whole = 0,
            now = 0,
            before = 0,
            explained = 0,
            holes = 0;
        for (var r = 0; r < weights.Length; r++)
            whole += weights[r] /= total;
        if (!(whole > 1e-12))
            return;
        var another = false;
        var (row, summed) = (i * spots.Length, drawn.Summed[i]);
        var (rowLeaks, rowLeaksNow, rowNow, rowBefore) = (drawn.Leaks, drawn.LeaksNow, drawn.Now, drawn.Before);
        for (var j = 0; j < spots.Length; j++)
        {
            var (leaks, leaksNow, role) = (rowLeaks[row + j], rowLeaksNow[row + j], roles[j]);
            if (leaks)
                sums.LeaksBefore[j] += whole;
            if (leaksNow)
                sums.LeaksNow[j] += whole;
            if (role == SpotRole.HoseSet)
                continue;
            another |= leaksNow && !open[j];
            if (j == summed)
                continue;
            now += rowNow[row + j];
            if (role != SpotRole.Reassembly)
                before += rowBefore[row + j];
            if (known[j])
                explained += rowBefore[row + j];
            if (!leaks)
                continue;
            sums.Rates[j * RateGrid.Count + RateGrid.Nearest(Math.Log(rowBefore[row + j]))] += whole;
            if (!leaksNow)
                continue;
            holes += rowNow[row + j];
            sums.TooMuch[j] += whole * (1 - sums.CoolsAt(rowNow[row + j]));
        }
        if (another)
            sums.AnotherRemains += whole;
        sums.Weight += whole;
        // Of a picture without a summed leak the first entry alone has a weight.
        var onCar = summed >= 0 && roles[summed] != SpotRole.HoseSet;
        var remains = onCar && rowLeaksNow[row + summed];
        var fromBefore = onCar && roles[summed] != SpotRole.Reassembly;
        var shift = Shift(i);
        if (summed >= 0)
        {
            var rates = sums.Rates;
            for (var r = 0; r < weights.Length; r++)
                rates[summed * RateGrid.Count + r] += weights[r];
            if (remains)
                sums.TooMuch[summed] += whole - sums.Curve.Sum(0, shift, RateGrid.Values, weights);
        }
        if (onCar && !remains)
            // What was mended seeps as others do.
            now += rowNow[row + summed];
        var (slopeNow, slopeBefore) = (remains ? shift : 0, fromBefore ? shift : 0);
        sums.Cools += sums.Curve.Sum(now, slopeNow, RateGrid.Values, weights);
        TotalGrid.Add(sums.TotalNow, now, slopeNow, RateGrid.Values, weights);
        TotalGrid.Add(sums.TotalBefore, before, slopeBefore, RateGrid.Values, weights);
        if (holes > 0 || remains)
            TotalGrid.Add(sums.HolesNow, holes, slopeNow, RateGrid.Values, weights);
        else
            sums.NoHoles += whole;
        var slopeKnown = fromBefore && known[summed] ? shift : 0;
        Explain(sums.Explained, explained, slopeKnown, before, slopeBefore, weights);
    }

    /// <summary>Puts each weight at the share that known places had in what was lost.</summary>
    private static void Explain(
        double[] shares,
        double explained,
        double slopeExplained,
        double before,
        double slopeBefore,
        double[] weights
    )
    {
        var values = RateGrid.Values;
        for (var r = 0; r < weights.Length; r++)
        {
            var share = (explained + slopeExplained * values[r]) / (before + slopeBefore * values[r]);
            shares[
                share >= 1 ? 100
                : share > 0 ? (int)(100 * share)
                : 0
            ] += weights[r];
        }
    }

    private Drawn Draw(double[,] suffix)
    {
        var sizes = Sizes(suffix);
        var drawn = new Drawn(sizes.Sum(stratum => stratum.Size), spots.Length);
        var at = 0;
        foreach (var (k, size) in sizes)
        {
            var logShare = Math.Log(suffix[0, k] * (k == 0 ? nothingLeaks : 1) / size);
            for (var i = 0; i < size; i++)
            {
                drawn.LogWeight[at] = logShare;
                One(suffix, k, i, size, drawn, at++);
            }
        }
        return drawn;
    }

    /// <summary>A weight for each picture and each rate of its summed leak; a picture without one has its weight in the first
    /// entry.</summary>
    private double[] Weights(Drawn drawn)
    {
        // Likelihoods against their peaks, so that none runs out of numbers: what a test may be besides what it is written
        // to be keeps each above nothing.
        var weights = new double[drawn.Count * RateGrid.Count];
        var top = drawn.LogWeight.Max();
        var weighing = Array.ConvertAll(tests, test => new Weighing(test, spots));
        var row = new double[RateGrid.Count];
        for (var i = 0; i < drawn.Count; i++)
        {
            Weigh(drawn, i, Math.Exp(drawn.LogWeight[i] - top), weighing, row);
            Array.Copy(row, 0, weights, i * row.Length, row.Length);
        }
        return weights;
    }

    /// <summary>One test as it weighs picture after picture: what is the same for all of them, and the sum of rates that it
    /// feels of this one.</summary>
    private sealed class Weighing
    {
        public readonly CircuitTest Test;
        public readonly OctaveTable Likelihood;
        public readonly double SeepFactor;
        public readonly bool ByVolume;

        /// <summary>Places that it feels at all, and of those the ones that were mended before it.</summary>
        public readonly bool[] Feels,
            After;

        public Weighing(CircuitTest test, SpotModel[] spots)
        {
            (Test, Likelihood, SeepFactor) = (test, test.Likelihood, test.SeepFactor);
            ByVolume = test.Kind != CircuitTestKind.Loss;
            Feels = Array.ConvertAll(spots, spot =>
                (spot.Role == SpotRole.HoseSet ? test.WithHoses : !test.HosesAlone) && !(spot.Onset > test.Time)
            );
            After = Array.ConvertAll(spots, spot => spot.MendedAt is { } mended && test.Time > mended);
        }
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

    private void One(double[,] suffix, int k, int i, int size, Drawn drawn, int at)
    {
        var row = at * spots.Length;
        drawn.LogVolume[at] =
            logVolume
            + this.size.VolumeSpread
                * Normal.Quantile(((i * 0.6180339887498949 + Uniform(0, 991, k)) % 1 * 0.998) + 0.001);
        drawn.Summed[at] = -1;
        var seeps = MedianSeep * Math.Exp(SeepSpread * Normal.Quantile(Uniform(i, 994, k)));
        var left = k;
        // Which of the k is summed over: drawn beforehand, so that it depends on nothing else.
        var summed = k == 0 ? -1 : (int)(Uniform(i, 992, k) * k);
        for (var j = 0; j < spots.Length; j++)
        {
            var spot = spots[j];
            // The first place is drawn evenly over the pictures of a stratum.
            var leaks = false;
            if (left > 0)
            {
                var u = j == 0 ? (i + Uniform(i, j, k)) / size : Uniform(i, j, k);
                leaks = u * suffix[j, left] < spot.Odds * suffix[j + 1, left - 1];
            }
            var seep = seeps * SpotModel.Pick(spot.SeepCumulative, Uniform(i, j, 101), Uniform(i, j, 102));
            drawn.Before[row + j] = drawn.Now[row + j] = seep;
            if (!leaks)
                continue;
            drawn.Leaks[row + j] = true;
            left--;
            // Leaks that matter are narrow and slow, nearer the viscous law; few are openings.
            drawn.Law[row + j] = CircuitTest.LawAt(Uniform(i, j, 103));
            drawn.Shuts[row + j] = Uniform(i, j, 104) < spot.Habit.ShutsUnderVacuum;
            drawn.Runs[row + j] = Uniform(i, j, 105) < spot.Habit.OpensRunning;
            var failed = Fails(spot, drawn, at, Uniform(i, j, 106));
            var remains = drawn.LeaksNow[row + j] = failed || spot.MendedAt is null;
            if (k - left - 1 == summed)
            {
                (drawn.Summed[at], drawn.SummedFailed[at]) = (j, failed);
                continue;
            }
            var rate = SpotModel.Pick(
                failed ? spot.FailedCumulative : spot.HeldCumulative,
                Uniform(i, j, 107),
                Uniform(i, j, 102)
            );
            drawn.Before[row + j] = rate;
            drawn.Now[row + j] = remains ? rate : Math.Min(rate, seep);
        }
    }

    private static bool Fails(SpotModel spot, Drawn drawn, int at, double uniform)
    {
        if (spot.MendedAt is null)
            return false;
        var truth = spot.FailedMass / (spot.FailedMass + spot.HeldMass);
        var share = Math.Max(truth, LeastFailedShare);
        var failed = uniform < share;
        drawn.LogWeight[at] += Math.Log(failed ? truth / share : (1 - truth) / (1 - share));
        return failed;
    }

    private void Weigh(Drawn drawn, int i, double share, Weighing[] weighing, double[] weights)
    {
        var (row, summed) = (i * spots.Length, drawn.Summed[i]);
        var (rowLeaks, rowNow, rowBefore) = (drawn.Leaks, drawn.Now, drawn.Before);
        var shift = Shift(i);
        Array.Clear(weights);
        if (summed < 0)
            weights[0] = share;
        else
        {
            var spot = spots[summed];
            var (masses, sum) = drawn.SummedFailed[i] ? (spot.Failed, spot.FailedMass) : (spot.Held, spot.HeldMass);
            for (var r = 0; r < weights.Length; r++)
                if (masses[r] > 1e-10 * sum)
                    weights[r] = share * masses[r] / sum;
        }
        // Inward and outward flow stand over the volume that they fill or empty.
        var perVolume = weighing.Length == 0 ? 0 : Math.Exp(-drawn.LogVolume[i]);
        foreach (var one in weighing)
        {
            double seeps = 0,
                leaks = 0,
                slope = 0;
            var (feels, mended) = (one.Feels, one.After);
            for (var j = 0; j < feels.Length; j++)
            {
                if (!feels[j])
                    continue;
                if (!rowLeaks[row + j])
                {
                    seeps += rowBefore[row + j];
                    continue;
                }
                var factor = Factor(drawn, row + j, one.Test);
                var after = mended[j];
                if (j == summed && (!after || drawn.LeaksNow[row + j]))
                    slope = factor;
                else
                    leaks += factor * (after ? rowNow : rowBefore)[row + j];
            }
            var by = one.ByVolume ? perVolume : 1;
            one.Likelihood.Multiply(
                by * (leaks + one.SeepFactor * seeps + 1e-30),
                by * slope * shift,
                RateGrid.Values,
                weights
            );
        }
    }

    /// <summary>Each picture's grid of rates lies elsewhere between two entries.</summary>
    private double Shift(int i) => Math.Exp((Uniform(i, 993, 0) - 0.5) * RateGrid.StepLog);

    /// <summary>What a test feels of a leak, for each kg/s at rest.</summary>
    private static double Factor(Drawn drawn, int at, CircuitTest test)
    {
        if (test.Kind == CircuitTestKind.Loss)
            return 1;
        var factor = Math.Exp(test.LogFactor(drawn.Law[at]));
        if (test.Kind == CircuitTestKind.Vacuum && drawn.Shuts[at])
            factor *= SpotHabit.ShutShare;
        return drawn.Runs[at] ? factor * SpotHabit.RestShare : factor;
    }

    /// <summary>Equal pictures by systematic resampling.</summary>
    private Pictures Resample(Drawn drawn, double[] weights, double total, int wanted)
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
                Take(drawn, w / RateGrid.Count, w % RateGrid.Count, result, at);
                at++;
                next++;
            }
        }
        while (at < wanted)
            Take(drawn, drawn.Count - 1, 0, result, at++);
        return result;
    }

    private void Take(Drawn drawn, int i, int r, Pictures result, int at)
    {
        result.LogVolume[at] = drawn.LogVolume[i];
        for (var j = 0; j < spots.Length; j++)
        {
            var (index, from) = (at * spots.Length + j, i * spots.Length + j);
            var (before, now) = (drawn.Before[from], drawn.Now[from]);
            if (j == drawn.Summed[i])
            {
                before = RateGrid.Values[r] * Shift(i);
                now = drawn.LeaksNow[from] ? before : Math.Min(before, now);
            }
            result.Before[index] = before;
            result.Now[index] = now;
            result.LeaksBefore[index] = drawn.Leaks[from];
            result.LeaksNow[index] = drawn.LeaksNow[from];
            result.Law[index] = drawn.Leaks[from] ? drawn.Law[from] : Pictures.LawOfSeeps;
            result.Shuts[index] = drawn.Shuts[from];
            result.Runs[index] = drawn.Runs[from];
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
