namespace Tightcold.Numerics.Roots;

/// <summary>
/// A root between two points of opposite sign by the method of Brent [brent1973] (R. P. Brent, Algorithms for
/// Minimization without Derivatives, 1973, chapter 4): inverse quadratic steps, bisection where they do not pay.
/// </summary>
public static class BracketedRoot
{
    private const int MaxIterations = 200;

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
        double a = low,
            b = high;
        double fa = function.Evaluate(a),
            fb = function.Evaluate(b);
        if (double.IsNaN(fa) || double.IsNaN(fb))
            return new Solved<double>.Stalled(0, 1, "the function has no value at an end of the bracket");
        if (fa == 0)
            return new Solved<double>.Converged(a, 0, 0);
        if (fb == 0)
            return new Solved<double>.Converged(b, 0, 0);
        if ((fa > 0) == (fb > 0))
            return new Solved<double>.Stalled(0, 1, "the function does not change sign in the bracket");

        double c = a,
            fc = fa,
            step = b - a,
            previousStep = step;
        for (var i = 1; i <= MaxIterations; i++)
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

            var smallest = (2 * double.BitIncrement(Math.Abs(b))) - (2 * Math.Abs(b)) + (0.5 * tolerance);
            var half = 0.5 * (c - b);
            if (Math.Abs(half) <= smallest || fb == 0)
                return new Solved<double>.Converged(b, i, Math.Abs(half));
            if (double.IsNaN(fb))
                return new Solved<double>.Stalled(i, Math.Abs(half), "the function has no value inside the bracket");

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
            fb = function.Evaluate(b);
        }

        return new Solved<double>.Stalled(MaxIterations, Math.Abs(c - b), "too many steps");
    }
}
