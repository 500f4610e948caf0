using CsCheck;
using Tightcold.Numerics.Distributions;

namespace Tightcold.Numerics.Tests;

public sealed class NormalTests
{
    // Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1: x, Z(x), P(x). From memory, the page not
    // seen.
    [Theory]
    [InlineData(0.0, 0.398942280401433, 0.500000000000000)]
    [InlineData(0.5, 0.352065326764300, 0.691462461274013)]
    [InlineData(1.0, 0.241970724519143, 0.841344746068543)]
    [InlineData(1.5, 0.129517595665892, 0.933192798731142)]
    [InlineData(2.0, 0.053990966513188, 0.977249868051821)]
    [InlineData(2.5, 0.017528300493569, 0.993790334674224)]
    [InlineData(3.0, 0.004431848411938, 0.998650101968370)]
    [InlineData(4.0, 0.000133830225765, 0.999968328758167)]
    public void The_printed_table(double x, double density, double below)
    {
        Assert.Equal(density, Normal.Density(x), 1e-15);
        Assert.Equal(density, Normal.Density(-x), 1e-15);
        Assert.Equal(below, Normal.Cumulative(x), 1e-15);
        Assert.Equal(1 - below, Normal.Cumulative(-x), 1e-15);
        Assert.Equal(x, Normal.Quantile(below), 2e-15 / density);
    }

    // The same handbook, table 26.2: -log₁₀ Q(x) for large x. From memory, the page not seen.
    [Theory]
    [InlineData(5, 6.54265)]
    [InlineData(10, 23.11805)]
    [InlineData(20, 88.56010)]
    [InlineData(30, 197.30921)]
    public void The_printed_tails(double x, double minusLog) =>
        Assert.Equal(minusLog, -Math.Log10(Normal.Cumulative(-x)), 5e-6);

    // The check values of Wichura (1988), Algorithm AS 241, Appl. Stat. 37, 477.
    [Theory]
    [InlineData(0.25, -0.6744897501960817)]
    [InlineData(0.75, 0.6744897501960817)]
    [InlineData(0.001, -3.090232306167814)]
    [InlineData(1e-20, -9.262340089798408)]
    public void The_check_values_of_the_quantiles(double share, double expected) =>
        Assert.Equal(expected, Normal.Quantile(share), 1e-14);

    [Fact]
    public void Quantile_and_share_undo_each_other() =>
        Gen.Double[-8, 8]
            .Sample(z =>
            {
                // On the small side, where a share keeps its digits.
                var back = Normal.Quantile(Normal.Cumulative(-Math.Abs(z)));
                Assert.Equal(-Math.Abs(z), back, 1e-13);
            });

    [Fact]
    public void Both_sides_together_are_all_and_the_share_only_rises() =>
        Gen.Select(Gen.Double[-38, 38], Gen.Double[0, 1])
            .Sample(
                (z, step) =>
                {
                    Assert.Equal(1, Normal.Cumulative(z) + Normal.Cumulative(-z), 2e-16);
                    Assert.True(Normal.Cumulative(z + step) >= Normal.Cumulative(z));
                }
            );

    [Fact]
    public void The_density_is_the_slope_of_the_share() =>
        Gen.Double[-6, 6]
            .Sample(z =>
            {
                const double Step = 1e-4;
                var slope = (Normal.Cumulative(z + Step) - Normal.Cumulative(z - Step)) / (2 * Step);
                Assert.Equal(Normal.Density(z), slope, 2e-9);
            });

    [Theory]
    [InlineData(0.46875)]
    [InlineData(4)]
    public void The_share_has_no_step_where_one_formula_takes_over_from_another(double edge)
    {
        var z = -edge * Math.Sqrt(2);
        Assert.Equal(1, Normal.Cumulative(z * (1 - 1e-14)) / Normal.Cumulative(z * (1 + 1e-14)), 1e-12);
    }

    [Fact]
    public void Far_out_is_nothing_or_all() =>
        Assert.Equal((0, 1), (Normal.Cumulative(-1000), Normal.Cumulative(1000)));

    [Fact]
    public void Quantiles_rise_with_the_share_also_where_one_formula_takes_over_from_another()
    {
        var last = double.NegativeInfinity;
        for (var i = 1; i < 20_000; i++)
        {
            var x = Normal.Quantile(i / 20_000.0);
            Assert.True(x > last, $"at {i}");
            last = x;
        }
    }

    [Fact]
    public void No_number_has_no_share() => Assert.True(double.IsNaN(Normal.Cumulative(double.NaN)));
}
