using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Tests.Sampling;

public sealed class QuantileTests
{
    // The check values of Wichura (1988), Appl. Stat. 37, 477, and quantiles to 16 digits by the same paper's symmetry.
    [Theory]
    [InlineData(0.25, -0.6744897501960817)]
    [InlineData(0.75, 0.6744897501960817)]
    [InlineData(0.001, -3.090232306167814)]
    [InlineData(1e-20, -9.262340089798408)]
    public void Normal_quantiles_are_the_published_ones(double share, double expected) =>
        Assert.Equal(expected, Gaussian.Quantile(share), 1e-14);

    // Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1: P(x) at x = 0.5, 1, 2, 3.
    [Theory]
    [InlineData(0.691462461274013, 0.5)]
    [InlineData(0.841344746068543, 1)]
    [InlineData(0.977249868051821, 2)]
    [InlineData(0.998650101968370, 3)]
    public void They_undo_the_printed_table_of_the_normal_distribution(double share, double x) =>
        Assert.Equal(x, Gaussian.Quantile(share), 1e-11);

    [Fact]
    public void They_rise_with_the_share_also_where_one_formula_takes_over_from_another()
    {
        var last = double.NegativeInfinity;
        for (var i = 1; i < 20_000; i++)
        {
            var x = Gaussian.Quantile(i / 20_000.0);
            Assert.True(x > last, $"at {i}");
            last = x;
        }
    }
}
