namespace Tightcold.Loop.Solving;

/// <summary>
/// A sign change closed in on without derivatives and without allocation: the method of Chandrupatla (Advances in
/// Engineering Software 28, 1997, 145): inverse quadratic where it is safe, halving where it is not.
/// </summary>
internal static class Bracket
{
    public interface IFunction
    {
        double At(double x);
    }

    /// <summary>Finds the sign change between <paramref name="a"/> and <paramref name="b"/>.</summary>
    /// <returns>False if there is none or a value is not a number; <paramref name="x"/> is then the last point
    /// tried.</returns>
    public static bool TryFind<TF>(
        ref TF f,
        double a,
        double b,
        double fa,
        double fb,
        double tolerance,
        double smallEnough,
        int most,
        out double x
    )
        where TF : struct, IFunction
    {
        x = b;
        if (double.IsNaN(fa) || double.IsNaN(fb) || (fa > 0) == (fb > 0))
            return fa == 0 || fb == 0;
        double c = a,
            fc = fa,
            t = 0.5;
        for (var i = 0; i < most; i++)
        {
            x = a + (t * (b - a));
            var fx = f.At(x);
            if (double.IsNaN(fx))
                return false;
            if (Math.Abs(fx) <= smallEnough)
                return true;
            if ((fx > 0) == (fa > 0))
            {
                c = a;
                fc = fa;
            }
            else
            {
                c = b;
                fc = fb;
                b = a;
                fb = fa;
            }

            a = x;
            fa = fx;
            var best = Math.Abs(fa) < Math.Abs(fb) ? a : b;
            var limit = tolerance / Math.Abs(b - c);
            if (limit > 0.5)
            {
                x = best;
                f.At(x);
                return true;
            }

            var xi = (a - b) / (c - b);
            var phi = (fa - fb) / (fc - fb);
            t =
                phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi
                    ? (fa / (fb - fa) * fc / (fb - fc)) + ((c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb))
                    : 0.5;
            t = Math.Min(1 - limit, Math.Max(limit, t));
        }

        return false;
    }
}
