using CsCheck;
using Tightcold.Numerics.Distributions;
using Tightcold.Numerics.Sampling;

namespace Tightcold.Numerics.Tests;

public sealed class SamplingTests
{
    private const int Draws = 200_000;

    private sealed class Shifting(ulong seed) : SeededChance(seed, shifts: true);

    private static SeededChance[] Both(ulong seed) => [new(seed), new Shifting(seed)];

    // The first numbers of the mixing generator from seed 1234567, as public tests of other programs print them.
    [Fact]
    public void The_mixing_generator_gives_the_printed_numbers()
    {
        ulong[] printed =
        [
            6457827717110365317,
            3203168211198807973,
            9817491932198370423,
            4593380528125082431,
            16408922859458223821,
        ];
        var chance = new SeededChance(1234567);
        for (var i = 0; i < printed.Length; i++)
        {
            Assert.Equal(printed[i], SeededChance.Mixed(1234567 + (SeededChance.Step * (ulong)(i + 1))));
            Assert.Equal(SeededChance.Share(printed[i]), chance.Uniform());
        }
    }

    // Marsaglia's shifts 12, 25, 27 and Vigna's multiplier, done once more in whole numbers of any size.
    [Fact]
    public void The_shifting_generator_is_the_published_recurrence()
    {
        var (x, mask) = ((System.Numerics.BigInteger)SeededChance.Mixed(42 + SeededChance.Step) | 1, ulong.MaxValue);
        var chance = new Shifting(42);
        for (var i = 0; i < 1000; i++)
        {
            x ^= x >> 12;
            x ^= (x << 25) & mask;
            x ^= x >> 27;
            var number = (ulong)((x * 2685821657736338717) & mask);
            Assert.Equal(((number >> 12) + 0.5) / Math.Pow(2, 52), chance.Uniform());
        }
    }

    [Fact]
    public void The_same_seed_gives_the_same_numbers_and_another_seed_others() =>
        Gen.ULong.Sample(
            seed =>
            {
                for (var kind = 0; kind < 2; kind++)
                {
                    var (one, same, other) = (Both(seed)[kind], Both(seed)[kind], Both(seed + 2)[kind]);
                    var alike = 0;
                    for (var i = 0; i < 64; i++)
                    {
                        var number = one.Normal();
                        Assert.Equal(number, same.Normal());
                        alike += number == other.Normal() ? 1 : 0;
                    }
                    Assert.Equal(0, alike);
                }
            },
            iter: 200
        );

    [Fact]
    public void A_share_never_is_nothing_nor_all()
    {
        Assert.InRange(SeededChance.Share(0), double.Epsilon, 1e-15);
        Assert.InRange(SeededChance.Share(ulong.MaxValue), 0.99, 1 - 1e-17);
    }

    // Mean 1/2 and variance 1/12; the deviation of the mean of n draws is √(1/12 n), of the variance √(1/180 n). Seeds
    // are fixed, so that five deviations are no matter of luck.
    [Theory]
    [InlineData(1)]
    [InlineData(77)]
    public void Uniform_numbers_have_the_mean_and_the_variance_of_their_law(ulong seed)
    {
        foreach (var chance in Both(seed))
        {
            var (mean, variance, bins) = Moments(chance.Uniform, share => share);
            Assert.Equal(0.5, mean, 5 * Math.Sqrt(1.0 / 12 / Draws));
            Assert.Equal(1.0 / 12, variance, 5 * Math.Sqrt(1.0 / 180 / Draws));
            // Pearson's χ² over 100 classes: 99 ± 14; beyond 170 less than one time in 10 000.
            Assert.InRange(bins, 50, 170);
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(77)]
    public void Normal_numbers_have_the_mean_the_variance_and_the_shape_of_their_law(ulong seed)
    {
        foreach (var chance in Both(seed))
        {
            var (mean, variance, bins) = Moments(chance.Normal, Normal.Cumulative);
            Assert.Equal(0, mean, 5 * Math.Sqrt(1.0 / Draws));
            Assert.Equal(1, variance, 5 * Math.Sqrt(2.0 / Draws));
            Assert.InRange(bins, 50, 170);
        }
    }

    [Fact]
    public void Neighbours_in_a_stream_and_neighbouring_seeds_know_nothing_of_each_other()
    {
        for (var kind = 0; kind < 2; kind++)
        {
            var chance = Both(5)[kind];
            double last = chance.Normal(),
                along = 0,
                across = 0;
            for (var i = 0; i < Draws; i++)
            {
                var next = chance.Normal();
                along += last * next;
                last = next;
                across += Both((ulong)i)[kind].Normal() * Both((ulong)i + 1)[kind].Normal();
            }
            // A correlation of nothing stays within five deviations, 5/√n.
            Assert.Equal(0, along / Draws, 5 / Math.Sqrt(Draws));
            Assert.Equal(0, across / Draws, 5 / Math.Sqrt(Draws));
        }
    }

    [Fact]
    public void Every_whole_number_below_the_count_comes_and_no_other()
    {
        foreach (var chance in Both(9))
        {
            var seen = new int[7];
            for (var i = 0; i < 70_000; i++)
                seen[chance.Below(7)]++;
            Assert.All(seen, count => Assert.InRange(count, 9_500, 10_500));
            var yes = Enumerable.Range(0, 100_000).Count(_ => chance.Chance(0.3));
            Assert.InRange(yes, 29_200, 30_800);
        }
    }

    [Fact]
    public void Between_two_ends_lies_between_them_and_half_of_the_logarithmic_ones_below_the_geometric_middle()
    {
        var chance = new SeededChance(3);
        var below = 0;
        for (var i = 0; i < 10_000; i++)
        {
            Assert.InRange(chance.Between(-3, 4), -3, 4);
            var number = chance.LogBetween(1e-3, 1e3);
            Assert.InRange(number, 1e-3, 1e3);
            below += number < 1 ? 1 : 0;
        }
        Assert.InRange(below, 4_750, 5_250);
    }

    // A normal likelihood about m with deviation s, times the standard normal prior: the evidence is the normal density
    // of m with variance 1 + s², the posterior has mean m/(1 + s²) and variance s²/(1 + s²): the product of two normal
    // densities.
    [Theory]
    [InlineData(1, 0.5, 0.3)]
    [InlineData(3, 1.5, 0.5)]
    [InlineData(6, -0.7, 0.4)]
    public void The_evidence_of_a_normal_likelihood_is_the_one_that_can_be_written_down(int d, double m, double s)
    {
        var samples = EvidenceSampler.Run(new Bell(d, m, s), 11);
        var exact = d * (Math.Log(Normal.Density(m / Math.Sqrt(1 + (s * s)))) - (0.5 * Math.Log(1 + (s * s))));
        Assert.Equal(exact, samples.LogEvidence, 0.12);
        Assert.Equal(1, samples.Weights.Sum(), 1e-12);
        Assert.InRange(samples.Effective, 100, samples.Count);
        for (var k = 0; k < d; k++)
        {
            var mean = Enumerable.Range(0, samples.Count).Sum(i => samples.Weights[i] * samples.Point(i)[k]);
            var square = Enumerable
                .Range(0, samples.Count)
                .Sum(i => samples.Weights[i] * Math.Pow(samples.Point(i)[k] - mean, 2));
            Assert.Equal(m / (1 + (s * s)), mean, 0.08);
            Assert.Equal(s * s / (1 + (s * s)), square, 0.2 * s * s / (1 + (s * s)));
        }
    }

    [Fact]
    public void Data_that_cannot_be_leave_no_weight()
    {
        var samples = EvidenceSampler.Run(new Bell(2, 0, 0), 1);
        Assert.Equal(double.NegativeInfinity, samples.LogEvidence);
        Assert.All(samples.Weights, weight => Assert.Equal(0, weight));
        Assert.Equal(0, samples.Effective);
    }

    private static (double Mean, double Variance, double ChiSquare) Moments(
        Func<double> draw,
        Func<double, double> share
    )
    {
        double sum = 0,
            squares = 0;
        var bins = new int[100];
        for (var i = 0; i < Draws; i++)
        {
            var x = draw();
            sum += x;
            squares += x * x;
            bins[Math.Min(99, (int)(100 * share(x)))]++;
        }
        var mean = sum / Draws;
        const double Each = Draws / 100.0;
        return (mean, (squares / Draws) - (mean * mean), bins.Sum(count => (count - Each) * (count - Each) / Each));
    }

    private readonly struct Bell(int dimensions, double mean, double deviation) : ILogLikelihood
    {
        public int Dimensions => dimensions;

        public double Evaluate(ReadOnlySpan<double> standardNormal)
        {
            if (deviation == 0)
                return double.NegativeInfinity;
            var log = 0.0;
            foreach (var z in standardNormal)
                log += Math.Log(Normal.Density((z - mean) / deviation) / deviation);
            return log;
        }
    }
}
