namespace Tightcold.Numerics.Roots;

/// <summary>
/// A root between two points of opposite sign by the method of Brent [brent1973] (R. P. Brent, Algorithms for
/// Minimization without Derivatives, 1973, chapter 4): inverse quadratic steps, bisection where they do not pay.
/// </summary>
public static class BracketedRoot
{
    private const int MaxIterations = 200;

    private enum End
    {
        Found,
        NoValueAtEnd,
        NoSignChange,
        NoValueInside,
        TooManySteps,
    }

    /// <summary>Finds x in [<paramref name="low"/>, <paramref name="high"/>] where the function changes sign.</summary>
    /// <param name="function">The function; its values at both ends must differ in sign, or one be zero.</param>
    /// <param name="low">Lower end.</param>
    /// <param name="high">Upper end.</param>
    /// <param name="tolerance">Absolute tolerance in x; not below four units in the last place of x.</param>
    /// <returns>The root, or why there is none: no sign change, a value that is not a number, or too many
    /// steps.</returns>
    public static Solved<double> Find<TF>(TF function, double low, double high, double tolerance)
        where TF : struct, IScalarFunction
    {
        var search = new Search(low, function.Evaluate(low), high, function.Evaluate(high), tolerance, 0);
        return search.Run(ref function) switch
        {
            End.Found => new Solved<double>.Converged(search.Root, search.Steps, search.Width),
            End.NoValueAtEnd => search.Stalled("the function has no value at an end of the bracket"),
            End.NoSignChange => search.Stalled("the function does not change sign in the bracket"),
            End.NoValueInside => search.Stalled("the function has no value inside the bracket"),
            _ => search.Stalled("too many steps"),
        };
    }

    /// <summary>The same without a sentence and without allocation, for a function that keeps what it worked out: it
    /// was last asked at <paramref name="root"/>.</summary>
    /// <param name="atLow">Its value at <paramref name="low"/>, known already.</param>
    /// <param name="atHigh">Its value at <paramref name="high"/>, known already.</param>
    /// <param name="enough">A value no further from zero than this is a root too.</param>
    /// <returns>False if there is none; <paramref name="root"/> is then the best or last point.</returns>
    public static bool TryFind<TF>(
        ref TF function,
        double low,
        double high,
        double atLow,
        double atHigh,
        double tolerance,
        double enough,
        out double root
    )
        where TF : struct, IScalarFunction
    {
        var search = new Search(low, atLow, high, atHigh, tolerance, enough);
        var found = search.Run(ref function) == End.Found;
        root = search.Root;
        if (found && search.LastAsked != root)
            function.Evaluate(root);
        return found;
    }

    /// <summary>
    /// The root of a function that only rises or only falls between the ends; where it has none there, the end where it
    /// is nearer to zero. Without allocation.
    /// </summary>
    /// <returns>Not a number where the function is none.</returns>
    public static double Nearest<TF>(TF function, double low, double high, double tolerance)
        where TF : struct, IScalarFunction
    {
        double atLow = function.Evaluate(low),
            atHigh = function.Evaluate(high);
        var search = new Search(low, atLow, high, atHigh, tolerance, 0);
        return search.Run(ref function) switch
        {
            End.Found => search.Root,
            End.NoSignChange => Math.Abs(atLow) < Math.Abs(atHigh) ? low : high,
            _ => double.NaN,
        };
    }

    /// <summary>As above for a function written where it is wanted.</summary>
    public static double Nearest(Func<double, double> function, double low, double high, double tolerance) =>
        Nearest(new Written(function), low, high, tolerance);

    private readonly struct Written(Func<double, double> function) : IScalarFunction
    {
        public double Evaluate(double x) => function(x);
    }

    /// <summary>Brent's a, b and c: the point before, the best point, and the other end of the bracket.</summary>
    private struct Search(double a, double fa, double b, double fb, double tolerance, double enough)
    {
        private double width = 1;

        public double Root { get; private set; }

        public int Steps { get; private set; }

        public double LastAsked { get; private set; } = double.NaN;

        public readonly double Width => width;

        public readonly Solved<double> Stalled(string reason) => new Solved<double>.Stalled(Steps, width, reason);

        public End Run<TF>(ref TF function)
            where TF : struct, IScalarFunction
        {
            Root = b;
            if (double.IsNaN(fa) || double.IsNaN(fb))
                return End.NoValueAtEnd;
            if (Math.Abs(fa) <= enough || Math.Abs(fb) <= enough)
            {
                Root = Math.Abs(fa) <= enough ? a : b;
                width = 0;
                return End.Found;
            }
            if ((fa > 0) == (fb > 0))
                return End.NoSignChange;

            double c = a,
                fc = fa,
                step = b - a,
                previousStep = step;
            for (Steps = 1; Steps <= MaxIterations; Steps++)
            {
                if ((fb > 0) == (fc > 0))
                {
                    c = a;
                    fc = fa;
                    step = b - a;
                    previousStep = step;
                }

                if (Math.Abs(fc) < Math.Abs(fb))
                {
                    (a, b, c) = (b, c, b);
                    (fa, fb, fc) = (fb, fc, fb);
                }

                Root = b;
                var smallest = (2 * double.BitIncrement(Math.Abs(b))) - (2 * Math.Abs(b)) + (0.5 * tolerance);
                var half = 0.5 * (c - b);
                width = Math.Abs(half);
                if (width <= smallest || Math.Abs(fb) <= enough)
                    return End.Found;

                if (Math.Abs(previousStep) >= smallest && Math.Abs(fa) > Math.Abs(fb))
                {
                    var s = fb / fa;
                    double p,
                        q;
                    if (a == c)
                    {
                        p = 2 * half * s;
                        q = 1 - s;
                    }
                    else
                    {
                        var r = fb / fc;
                        q = fa / fc;
                        p = s * ((2 * half * q * (q - r)) - ((b - a) * (r - 1)));
                        q = (q - 1) * (r - 1) * (s - 1);
                    }

                    if (p > 0)
                        q = -q;
                    p = Math.Abs(p);
                    if (2 * p < Math.Min((3 * half * q) - Math.Abs(smallest * q), Math.Abs(previousStep * q)))
                    {
                        previousStep = step;
                        step = p / q;
                    }
                    else
                    {
                        step = half;
                        previousStep = step;
                    }
                }
                else
                {
                    step = half;
                    previousStep = step;
                }

                a = b;
                fa = fb;
                b += Math.Abs(step) > smallest ? step : Math.CopySign(smallest, half);
                LastAsked = b;
                fb = function.Evaluate(b);
                if (double.IsNaN(fb))
                    return End.NoValueInside;
            }

            Steps = MaxIterations;
            width = Math.Abs(c - b);
            return End.TooManySteps;
        }
    }
}
