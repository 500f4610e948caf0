using CsCheck;

namespace Tightcold.Quantities.Tests;

public sealed class EstimateTests
{
    private static Estimate Belief(double mean, double sigma, double floor = double.NegativeInfinity) =>
        Estimate.Normal("charge", "charge", QuantityKind.Mass, mean, sigma, floor: floor);

    // Abramowitz and Stegun, table 26.5 (percentage points): 0.05 of the normal distribution lie beyond 1.64485.
    [Fact]
    public void A_normal_belief_reaches_to_the_printed_percentage_point()
    {
        var belief = Belief(10, 2);
        Assert.Equal((10, 0.90), (belief.Median, belief.Level));
        Assert.Equal(10 - (2 * 1.64485), belief.Low!.Value, 2e-4);
        Assert.Equal(10 + (2 * 1.64485), belief.High!.Value, 2e-4);
    }

    [Fact]
    public void A_belief_holds_its_middle_and_stays_above_its_floor() =>
        Gen.Select(Gen.Double[-5, 5], Gen.Double[0, 5], Gen.Double[-3, 3])
            .Sample(
                (mean, sigma, floor) =>
                {
                    var belief = Belief(mean, sigma, floor);
                    Assert.True(belief.Low <= belief.Median && belief.Median <= belief.High);
                    Assert.True(belief.Low >= floor);
                    Assert.Equal(Math.Max(floor, mean), belief.Median);
                }
            );

    [Theory]
    [InlineData(double.NaN, 1, 2)]
    [InlineData(1, double.NaN, 2)]
    [InlineData(1, 0, double.NaN)]
    [InlineData(1, double.NegativeInfinity, 2)]
    [InlineData(1, 2, 3)]
    [InlineData(4, 2, 3)]
    [InlineData(2, 3, 1)]
    public void A_belief_outside_its_interval_or_without_a_number_is_refused(double median, double low, double high) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            Estimate.Between("charge", "charge", QuantityKind.Mass, median, low, high)
        );

    [Fact]
    public void A_spread_below_zero_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => Belief(1, -0.1));

    [Fact]
    public void A_bound_stands_alone_and_says_so()
    {
        var least = Estimate.AtLeast("leak", "leak", QuantityKind.LeakRate, 3);
        var most = Estimate.AtMost("leak", "leak", QuantityKind.LeakRate, 4);
        Assert.Equal((null, 3.0, null, 0.95), (least.Median, least.Low, least.High, least.Level));
        Assert.Equal((null, null, 4.0, 0.95), (most.Median, most.Low, most.High, most.Level));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            Estimate.AtMost("leak", "leak", QuantityKind.LeakRate, double.PositiveInfinity)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            Estimate.AtLeast("leak", "leak", QuantityKind.LeakRate, double.NaN)
        );
    }

    // No limits, or a middle with one limit alone, would be a bare number; a certainty of 0 or 1 is none.
    [Theory]
    [InlineData(null, null, null, 0.9)]
    [InlineData(1.0, null, null, 0.9)]
    [InlineData(1.0, 0.5, null, 0.9)]
    [InlineData(1.0, null, 2.0, 0.9)]
    [InlineData(1.0, 0.5, 2.0, 0.0)]
    [InlineData(1.0, 0.5, 2.0, 1.0)]
    [InlineData(1.0, 0.5, 2.0, double.NaN)]
    [InlineData(3.0, 0.5, 2.0, 0.9)]
    public void A_bare_number_cannot_be_made(double? median, double? low, double? high, double level) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new Estimate("key", "name", QuantityKind.Mass, median, low, high, level, EstimateOrigin.Computed)
        );
}
