using CsCheck;
using Tightcold.Numerics.Roots;

namespace Tightcold.Numerics.Tests;

public sealed class RootTests
{
    /// <summary>
    /// Problems with roots that are printed elsewhere: most from the test set of Alefeld, Potra and Shi, Algorithm 748,
    /// ACM Trans. Math. Softw. 21 (1995) 327, with the roots that public tests of that set print; Wallis's cubic; three
    /// constants by their numbers in the encyclopedia of integer sequences (A003957, A030178, A094090), from memory. The
    /// pages themselves were not seen.
    /// </summary>
    public static TheoryData<string, double, double, double> Published =>
        new()
        {
            { "sin x - x/2", Math.PI / 2, Math.PI, 1.8954942670339809 },
            { "2 x exp(-1) + 1 - 2 exp(-x)", 0, 1, 0.42247770964123671 },
            { "x² - (1 - x)⁵", 0, 1, 0.34595481584824206 },
            { "exp(-x) (x - 1) + x", 0, 1, 0.40105813754154703 },
            { "x^(1/4) - 4^(1/4)", 0, 100, 4 },
            { "(20 x - 1) / (19 x)", 0.01, 1, 0.05 },
            { "x¹² - 0.2", 0, 5, 0.87448527222116771 },
            { "-40 x exp(-x)", -9, 31, 0 },
            { "x³ - 2 x - 5", 2, 3, 2.0945514815423265 },
            { "cos x - x", 0, 1, 0.73908513321516064 },
            { "x exp(x) - 1", 0, 1, 0.56714329040978387 },
            { "(x - 5) exp(x) + 5", 1, 10, 4.9651142317442763 },
        };

    private static Func<double, double> Problem(string name) =>
        name switch
        {
            "sin x - x/2" => x => Math.Sin(x) - (x / 2),
            "2 x exp(-1) + 1 - 2 exp(-x)" => x => (2 * x * Math.Exp(-1)) + 1 - (2 * Math.Exp(-x)),
            "x² - (1 - x)⁵" => x => (x * x) - Math.Pow(1 - x, 5),
            "exp(-x) (x - 1) + x" => x => (Math.Exp(-x) * (x - 1)) + x,
            "x^(1/4) - 4^(1/4)" => x => Math.Pow(x, 0.25) - Math.Pow(4, 0.25),
            "(20 x - 1) / (19 x)" => x => ((20 * x) - 1) / (19 * x),
            "x¹² - 0.2" => x => Math.Pow(x, 12) - 0.2,
            "-40 x exp(-x)" => x => -40 * x * Math.Exp(-x),
            "x³ - 2 x - 5" => x => (x * x * x) - (2 * x) - 5,
            "cos x - x" => x => Math.Cos(x) - x,
            "x exp(x) - 1" => x => (x * Math.Exp(x)) - 1,
            _ => x => ((x - 5) * Math.Exp(x)) + 5,
        };

    [Theory]
    [MemberData(nameof(Published))]
    public void Published_problems_end_at_their_printed_roots(string name, double low, double high, double root)
    {
        var counted = new Counted(Problem(name));
        var found = Assert.IsType<Solved<double>.Converged>(BracketedRoot.Find(new Asked(counted), low, high, 1e-15));
        Assert.Equal(root, found.Value, 4e-15 + (2e-15 * Math.Abs(root)));
        // Halving alone to this width would ask some fifty times.
        Assert.InRange(counted.Times, 3, 25);
        Assert.Equal(root, BracketedRoot.Nearest(Problem(name), low, high, 1e-15), 1e-14);
    }

    // Meeus, Astronomical Algorithms, example 30.a: eccentricity 0.1, mean anomaly 5°, eccentric anomaly 5.554 589°.
    // From memory, the page not seen.
    [Fact]
    public void Keplers_equation_gives_the_printed_anomaly() =>
        Assert.Equal(
            5.554589,
            BracketedRoot.Nearest(x => x - (0.1 * Math.Sin(x)) - (5 * Math.PI / 180), 0, 1, 1e-15) * 180 / Math.PI,
            5e-7
        );

    [Fact]
    public void The_root_lies_in_the_bracket_and_within_the_tolerance_of_a_change_of_sign() =>
        Gen.Select(Gen.Double[-50, 50], Gen.Double[1e-3, 60], Gen.Double[1e-3, 60], Gen.Double[-12, 0], Gen.Int[0, 3])
            .Sample(
                (root, below, above, logTolerance, shape) =>
                {
                    var tolerance = Math.Pow(10, logTolerance);
                    var f = new Shaped(root, shape);
                    var found = Assert.IsType<Solved<double>.Converged>(
                        BracketedRoot.Find(f, root - below, root + above, tolerance)
                    );
                    Assert.InRange(found.Value, root - below, root + above);
                    Assert.Equal(root, found.Value, tolerance + 1e-13);
                }
            );

    [Fact]
    public void Turned_over_or_read_backwards_it_is_the_same_root() =>
        Gen.Select(Gen.Double[-50, 50], Gen.Double[0.1, 60], Gen.Double[0.1, 60], Gen.Int[0, 3])
            .Sample(
                (root, below, above, shape) =>
                {
                    var f = new Shaped(root, shape);
                    Assert.Equal(
                        root,
                        BracketedRoot.Nearest(x => -f.Evaluate(x), root - below, root + above, 1e-12),
                        1e-11
                    );
                    Assert.Equal(root, BracketedRoot.Nearest(f, root + above, root - below, 1e-12), 1e-11);
                }
            );

    [Fact]
    public void Without_a_root_between_the_ends_the_answer_is_none_or_the_nearer_end()
    {
        var line = new Shaped(2, 0);
        var none = Assert.IsType<Solved<double>.Stalled>(BracketedRoot.Find(line, 3, 5, 1e-12));
        Assert.Contains("does not change sign", none.Reason, StringComparison.Ordinal);
        Assert.Equal(3, BracketedRoot.Nearest(line, 3, 5, 1e-12));
        Assert.Equal(1, BracketedRoot.Nearest(line, -5, 1, 1e-12));
        Assert.False(BracketedRoot.TryFind(ref line, 3, 5, 1, 3, 1e-12, 0, out _));
    }

    [Fact]
    public void A_root_at_an_end_is_found_at_once()
    {
        foreach (var (low, high) in new[] { (2.0, 5.0), (0.0, 2.0) })
        {
            var found = Assert.IsType<Solved<double>.Converged>(BracketedRoot.Find(new Shaped(2, 1), low, high, 1e-12));
            Assert.Equal((2, 0), (found.Value, found.Iterations));
        }
    }

    [Theory]
    [InlineData(0, "at an end")]
    [InlineData(0.9, "inside")]
    public void Where_the_function_is_no_number_there_is_no_value(double edge, string where)
    {
        var broken = new Broken(edge);
        var none = Assert.IsType<Solved<double>.Stalled>(BracketedRoot.Find(broken, -1, 1, 1e-12));
        Assert.Contains(where, none.Reason, StringComparison.Ordinal);
        Assert.True(double.IsNaN(BracketedRoot.Nearest(broken, -1, 1, 1e-12)));
        Assert.False(
            BracketedRoot.TryFind(ref broken, -1, 1, broken.Evaluate(-1), broken.Evaluate(1), 1e-12, 0, out _)
        );
    }

    [Fact]
    public void A_function_that_keeps_what_it_worked_out_was_last_asked_at_the_root() =>
        Gen.Select(Gen.Double[-50, 50], Gen.Double[0.1, 60], Gen.Double[0.1, 60], Gen.Int[0, 3], Gen.Double[-9, 0])
            .Sample(
                (root, below, above, shape, logTolerance) =>
                {
                    var f = new Keeping { Of = new(root, shape) };
                    double low = root - below,
                        high = root + above;
                    Assert.True(
                        BracketedRoot.TryFind(
                            ref f,
                            low,
                            high,
                            f.Of.Evaluate(low),
                            f.Of.Evaluate(high),
                            Math.Pow(10, logTolerance),
                            0,
                            out var found
                        )
                    );
                    Assert.Equal(found, f.Last);
                }
            );

    [Fact]
    public void A_value_small_enough_ends_the_search()
    {
        var f = new Keeping { Of = new(3, 0) };
        Assert.True(BracketedRoot.TryFind(ref f, 0, 10, -3, 7, 0, 0.5, out var found));
        Assert.InRange(f.Of.Evaluate(found), -0.5, 0.5);
        Assert.InRange(f.Times, 1, 3);
    }

    [Fact]
    public void The_search_leaves_nothing_for_the_collector()
    {
        var f = new Keeping { Of = new(3.3, 2) };
        BracketedRoot.TryFind(ref f, 0, 10, f.Of.Evaluate(0), f.Of.Evaluate(10), 1e-12, 0, out _);
        BracketedRoot.Nearest(f.Of, 0, 10, 1e-12);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 100; i++)
        {
            BracketedRoot.TryFind(ref f, 0, 10, f.Of.Evaluate(0), f.Of.Evaluate(10), 1e-12, 0, out _);
            BracketedRoot.Nearest(f.Of, 0, 10, 1e-12);
        }
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void Halving_keeps_the_place_where_yes_begins_between_its_ends() =>
        Gen.Select(Gen.Double[0, 1], Gen.Int[1, 50])
            .Sample(
                (edge, times) =>
                {
                    var asked = 0;
                    var (no, yes) = Halving.Narrow(
                        x =>
                        {
                            asked++;
                            return x > edge;
                        },
                        0,
                        1,
                        times
                    );
                    Assert.Equal(times, asked);
                    Assert.True(no <= edge && edge <= yes);
                    Assert.Equal(Math.Pow(0.5, times), yes - no);
                }
            );

    [Fact]
    public void Halving_ends_at_the_end_where_all_answers_are_alike()
    {
        Assert.Equal((0, Math.Pow(0.5, 20)), Halving.Narrow(_ => true, 0, 1, 20));
        Assert.Equal((1 - Math.Pow(0.5, 20), 1), Halving.Narrow(_ => false, 0, 1, 20));
    }

    private sealed class Counted(Func<double, double> function)
    {
        public int Times { get; private set; }

        public double At(double x)
        {
            Times++;
            return function(x);
        }
    }

    private readonly struct Asked(Counted counted) : IScalarFunction
    {
        public double Evaluate(double x) => counted.At(x);
    }

    /// <summary>Rises through zero at the root: straight, as a cube, bent, or with a jump.</summary>
    private readonly struct Shaped(double root, int shape) : IScalarFunction
    {
        public double Evaluate(double x) =>
            shape switch
            {
                0 => x - root,
                1 => (x - root) * (1 + ((x - root) * (x - root))),
                2 => Math.Exp(0.3 * (x - root)) - 1,
                _ => x >= root ? 1 : -3,
            };
    }

    private struct Keeping : IScalarFunction
    {
        public Shaped Of;
        public double Last;
        public int Times;

        public double Evaluate(double x)
        {
            Last = x;
            Times++;
            return Of.Evaluate(x);
        }
    }

    private readonly struct Broken(double edge) : IScalarFunction
    {
        public double Evaluate(double x) => edge == 0 || Math.Abs(x) < edge ? double.NaN : x - 0.01;
    }
}
