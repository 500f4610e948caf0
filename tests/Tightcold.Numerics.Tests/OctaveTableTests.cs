using Tightcold.Numerics.Interpolation;

namespace Tightcold.Numerics.Tests;

public sealed class OctaveTableTests
{
    [Fact]
    public void A_curve_over_the_logarithm_is_told_to_eight_millionths_of_its_bend()
    {
        // sin(ln x) is bent by 1 at the most over ln x, and its slope's own bend is as large: (2⁻⁷)²/8·(1 + 1).
        var table = new OctaveTable(1e-9, 1e4, x => Math.Sin(Math.Log(x)));
        for (var x = 1e-9; x < 1e4; x *= 1.00137)
            Assert.Equal(Math.Sin(Math.Log(x)), table.At(x), 1.6e-5);
    }

    [Fact]
    public void A_straight_curve_is_told_exactly_and_the_ends_hold_beyond()
    {
        var table = new OctaveTable(0.75, 8, x => 3 * x);
        Assert.Equal(3 * 0.8125, table.At(0.8125), 1e-15);
        Assert.Equal(3 * 7.999, table.At(7.999), 1e-14);
        Assert.Equal(3 * 0.75, table.At(1e-300), 1e-15);
        Assert.Equal(3 * 0.75, table.At(0), 1e-15);
        Assert.InRange(table.At(double.MaxValue), 24, 24 * (1 + 1.0 / 128));
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(-1, 1)]
    [InlineData(double.NaN, 1)]
    [InlineData(2, 2)]
    [InlineData(1, double.PositiveInfinity)]
    public void Ends_that_are_no_positive_numbers_in_order_are_refused(double least, double most) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new OctaveTable(least, most, x => x));
}
