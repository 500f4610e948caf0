using CsCheck;
using Tightcold.Numerics.Sampling;

namespace Tightcold.Numerics.Tests;

public sealed class QuantileTests
{
    private static readonly double[] Nine = [1, 2, 3, 4, 5, 6, 7, 8, 9];

    private static readonly Gen<(double[] Sorted, double[] Weights)> Samples = Gen.Int[1, 30]
        .SelectMany(count =>
            Gen.Select(Gen.Double[-10, 10].Array[count], Gen.Double[0.01, 1].Array[count])
                .Select((values, weights) => (values.Order().ToArray(), weights))
        );

    [Theory]
    [InlineData(0, 1)]
    [InlineData(0.05, 1)]
    [InlineData(0.5, 5)]
    [InlineData(0.95, 9)]
    [InlineData(1, 9)]
    public void Of_nine_alike(double share, double expected) => Assert.Equal(expected, Quantile.Of(Nine, share));

    [Fact]
    public void Of_an_even_number_the_middle_is_the_upper_of_two() => Assert.Equal(3, Quantile.Of([1, 2, 3, 4], 0.5));

    [Fact]
    public void The_ends_of_an_interval_mirror_each_other() =>
        Gen.Select(Gen.Double[-10, 10].Array[1, 200], Gen.Double[0, 0.49])
            .Sample(
                (values, tail) =>
                {
                    // On a sixth of 78 samples the last bit of 1 - tail decides which of two neighbours it is.
                    if (Math.Abs(tail * values.Length - Math.Round(tail * values.Length)) < 1e-9 && tail > 0)
                        return;
                    double[] sorted = [.. values.Order()];
                    double[] mirrored = [.. values.Select(x => -x).Order()];
                    Assert.Equal(Quantile.Of(sorted, tail), -Quantile.Of(mirrored, 1 - tail));
                    Assert.True(Quantile.Of(sorted, tail) <= Quantile.Of(sorted, 1 - tail));
                    var whole = (int)(tail * sorted.Length);
                    Assert.True(sorted.Count(x => x < Quantile.Of(sorted, tail)) <= whole);
                    Assert.True(sorted.Count(x => x <= Quantile.Of(sorted, tail)) > whole);
                }
            );

    [Fact]
    public void A_weight_counts_as_so_many_samples() =>
        Gen.Select(Gen.Int[1, 5].Array[1, 12], Gen.Double[0.001, 0.999])
            .Sample(
                (counts, share) =>
                {
                    double[] values = [.. Enumerable.Range(0, counts.Length).Select(i => (double)i)];
                    double[] weights = [.. counts.Select(count => (double)count)];
                    double[] spread = [.. values.SelectMany((value, i) => Enumerable.Repeat(value, counts[i]))];
                    var ones = Enumerable.Repeat(1.0, spread.Length).ToArray();
                    Assert.Equal(Quantile.Of(spread, ones, share), Quantile.Of(values, weights, share));
                }
            );

    [Fact]
    public void No_more_than_the_share_lies_below_and_no_less_with_it() =>
        Gen.Select(Samples, Gen.Double[0.001, 0.999])
            .Sample(
                (samples, share) =>
                {
                    var (sorted, weights) = samples;
                    var at = Quantile.Of(sorted, weights, share);
                    var total = weights.Sum();
                    var below = weights.Where((_, i) => sorted[i] < at).Sum();
                    var with = weights.Where((_, i) => sorted[i] <= at).Sum();
                    Assert.True(below < share * total + 1e-12);
                    Assert.True(with > share * total - 1e-12);
                }
            );

    [Fact]
    public void Quantiles_rise_with_the_share_stay_among_the_samples_and_know_no_scale_of_weights() =>
        Gen.Select(Samples, Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0.1, 10])
            .Sample(
                (samples, one, other, scale) =>
                {
                    var (sorted, weights) = samples;
                    var (low, high) = (Math.Min(one, other), Math.Max(one, other));
                    double[] scaled = [.. weights.Select(weight => weight * scale)];
                    Assert.True(Quantile.Of(sorted, weights, low) <= Quantile.Of(sorted, weights, high));
                    double a = Quantile.Straight(sorted, weights, low),
                        b = Quantile.Straight(sorted, weights, high);
                    Assert.True(a <= b + 1e-12);
                    Assert.InRange(a, sorted[0], sorted[^1]);
                    Assert.InRange(b, sorted[0], sorted[^1]);
                    Assert.Equal(a, Quantile.Straight(sorted, scaled, low), 1e-9);
                }
            );

    // Two samples alike: their weights' middles stand at a quarter and at three quarters, between them it is straight.
    [Theory]
    [InlineData(0.1, 10)]
    [InlineData(0.25, 10)]
    [InlineData(0.5, 15)]
    [InlineData(0.7, 19)]
    [InlineData(0.75, 20)]
    [InlineData(0.9, 20)]
    public void Between_two_samples_it_is_straight(double share, double expected) =>
        Assert.Equal(expected, Quantile.Straight([10, 20], [1, 1], share), 1e-12);
}
