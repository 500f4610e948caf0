using CsCheck;
using Tightcold.Numerics.Interpolation;

namespace Tightcold.Numerics.Tests;

public sealed class InterpolationTests
{
    private static readonly Gen<double[]> Rising = Gen.Double[0.001, 5]
        .Array[2, 20]
        .Select(steps => steps.Aggregate(new List<double> { -3 }, (all, step) => [.. all, all[^1] + step]).ToArray());

    [Fact]
    public void At_its_entries_a_table_gives_them_and_beyond_its_ends_the_end() =>
        Gen.Double[-9, 9]
            .Array[2, 20]
            .Sample(table =>
            {
                for (var i = 0; i < table.Length; i++)
                    Assert.Equal(table[i], StraightLines.At(table, i));
                Assert.Equal(table[0], StraightLines.At(table, -0.5));
                Assert.Equal(table[0], StraightLines.At(table, double.NegativeInfinity));
                Assert.Equal(table[^1], StraightLines.At(table, table.Length - 0.5));
                Assert.Equal(table[^1], StraightLines.At(table, double.PositiveInfinity));
            });

    [Fact]
    public void A_straight_table_is_read_straight() =>
        Gen.Select(Gen.Double[-5, 5], Gen.Double[-5, 5], Gen.Int[2, 30], Gen.Double[0, 1])
            .Sample(
                (start, slope, count, share) =>
                {
                    double[] table = [.. Enumerable.Range(0, count).Select(i => start + (slope * i))];
                    var place = share * (count - 1);
                    Assert.Equal(start + (slope * place), StraightLines.At(table, place), 1e-12);
                }
            );

    [Fact]
    public void A_rising_table_is_read_rising_and_between_its_neighbours() =>
        Gen.Select(Rising, Gen.Double[-1, 21], Gen.Double[0, 3])
            .Sample(
                (table, place, further) =>
                {
                    var here = StraightLines.At(table, place);
                    Assert.True(StraightLines.At(table, place + further) >= here);
                    var i = Math.Clamp((int)Math.Floor(place), 0, table.Length - 2);
                    Assert.InRange(here, table[i], table[i + 1]);
                }
            );

    [Fact]
    public void The_place_of_a_number_leads_back_to_it() =>
        Gen.Select(Rising, Gen.Double[0, 1])
            .Sample(
                (rising, share) =>
                {
                    var x = rising[0] + (share * (rising[^1] - rising[0]));
                    Assert.Equal(x, StraightLines.At(rising, StraightLines.Place(rising, x)), 1e-12);
                    Assert.Equal(0, StraightLines.Place(rising, rising[0] - 1));
                    Assert.Equal(rising.Length - 1, StraightLines.Place(rising, rising[^1] + 1));
                    for (var i = 0; i < rising.Length; i++)
                        Assert.Equal(i, StraightLines.Place(rising, rising[i]));
                }
            );

    [Fact]
    public void A_series_through_a_smooth_function_reproduces_it_and_its_powers_do_too()
    {
        var nodes = ChebyshevSeries.Nodes(1, 3, 20);
        var series = ChebyshevSeries.FromNodeValues(1, 3, [.. nodes.Select(Math.Exp)]);
        var powers = series.ToPowers();
        for (var x = 1.0; x <= 3; x += 0.1)
        {
            Assert.Equal(Math.Exp(x), series.Evaluate(x), 1e-13);
            Assert.Equal(Math.Exp(x), powers.Select((c, k) => c * Math.Pow(x - 2, k)).Sum(), 1e-12);
        }

        Assert.Equal((1, 3), (series.Lower, series.Upper));
        Assert.Throws<ArgumentOutOfRangeException>(() => ChebyshevSeries.Nodes(3, 1, 5));
        Assert.Throws<ArgumentOutOfRangeException>(() => ChebyshevSeries.Nodes(1, 3, 1));
    }

    // A series through n nodes is exact for every polynomial of a degree below n.
    [Fact]
    public void A_series_is_exact_for_a_polynomial_of_its_degree() =>
        Gen.Select(Gen.Double[-2, 2].Array[1, 9], Gen.Double[-4, 4], Gen.Double[0.1, 4], Gen.Double[0, 1])
            .Sample(
                (powers, lower, width, share) =>
                {
                    double At(double x) => powers.Reverse().Aggregate(0.0, (sum, c) => (sum * (x - lower)) + c);
                    var nodes = ChebyshevSeries.Nodes(lower, lower + width, Math.Max(2, powers.Length));
                    var series = ChebyshevSeries.FromNodeValues(lower, lower + width, [.. nodes.Select(At)]);
                    var x = lower + (share * width);
                    Assert.Equal(At(x), series.Evaluate(x), 1e-8);
                }
            );

    // The nodes are the zeros of the Chebyshev polynomial of their number: cos((2i + 1)π/2n).
    [Fact]
    public void Nodes_are_the_zeros_of_the_polynomial() =>
        Assert.All(ChebyshevSeries.Nodes(-1, 1, 7), node => Assert.Equal(0, Math.Cos(7 * Math.Acos(node)), 1e-13));
}
