using CsCheck;
using Tightcold.Numerics;
using Tightcold.Numerics.Interpolation;
using Tightcold.Numerics.Roots;

namespace Tightcold.Properties.Tests.Unit;

public sealed class BracketedRootTests
{
    [Fact]
    public void A_root_between_opposite_signs_is_found_to_the_tolerance() =>
        Gen.Double[0.01, 50]
            .Sample(root =>
            {
                var found = Assert.IsType<Solved<double>.Converged>(BracketedRoot.Find(new Cubic(root), 0, 60, 1e-12));
                Assert.Equal(root, found.Value, 1e-10);
                Assert.InRange(found.Iterations, 0, 100);
            });

    [Fact]
    public void A_root_at_an_end_is_found_at_once()
    {
        Assert.Equal(2, Assert.IsType<Solved<double>.Converged>(BracketedRoot.Find(new Cubic(2), 2, 5, 1e-12)).Value);
        Assert.Equal(2, Assert.IsType<Solved<double>.Converged>(BracketedRoot.Find(new Cubic(2), 0, 2, 1e-12)).Value);
    }

    [Fact]
    public void No_sign_change_and_no_number_stall_with_the_reason()
    {
        Assert.Contains(
            "sign",
            Assert.IsType<Solved<double>.Stalled>(BracketedRoot.Find(new Cubic(2), 3, 5, 1e-12)).Reason,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "no value",
            Assert.IsType<Solved<double>.Stalled>(BracketedRoot.Find(new Broken(0), -1, 1, 1e-12)).Reason,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "inside",
            Assert.IsType<Solved<double>.Stalled>(BracketedRoot.Find(new Broken(0.9), -1, 1, 1e-12)).Reason,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_series_through_a_smooth_function_reproduces_it_and_its_powers_do_too()
    {
        double[] nodes = ChebyshevSeries.Nodes(1, 3, 20);
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

    private readonly struct Cubic(double root) : IScalarFunction
    {
        public double Evaluate(double x) => (x - root) * (1 + (x * x));
    }

    private readonly struct Broken(double edge) : IScalarFunction
    {
        public double Evaluate(double x) =>
            Math.Abs(x) < 1 && Math.Abs(x) < edge ? double.NaN
            : edge == 0 ? double.NaN
            : x - 0.01;
    }
}
