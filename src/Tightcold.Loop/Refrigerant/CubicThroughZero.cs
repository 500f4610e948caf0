namespace Tightcold.Loop.Refrigerant;

/// <summary>Least-squares cubic a x + b x2 + c x3 through the origin, weighted with 1/x so that the near end counts.</summary>
internal static class CubicThroughZero
{
    public static (double A, double B, double C) Fit(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        // y/x = a + b x + c x2: an ordinary quadratic fit, solved by its normal equations in x scaled to 1.
        var scale = x[^1];
        Span<double> s = stackalloc double[5], r = stackalloc double[3];
        s.Clear();
        r.Clear();
        for (var i = 0; i < x.Length; i++)
        {
            var u = x[i] / scale;
            var ratio = y[i] / x[i];
            var power = 1.0;
            for (var k = 0; k < 5; k++)
            {
                s[k] += power;
                if (k < 3)
                    r[k] += power * ratio;
                power *= u;
            }
        }

        var det = Determinant(s[0], s[1], s[2], s[1], s[2], s[3], s[2], s[3], s[4]);
        var a = Determinant(r[0], s[1], s[2], r[1], s[2], s[3], r[2], s[3], s[4]) / det;
        var b = Determinant(s[0], r[0], s[2], s[1], r[1], s[3], s[2], r[2], s[4]) / det;
        var c = Determinant(s[0], s[1], r[0], s[1], s[2], r[1], s[2], s[3], r[2]) / det;
        return (a, b / scale, c / (scale * scale));
    }

    private static double Determinant(double a, double b, double c, double d, double e, double f, double g, double h, double i) =>
        (a * ((e * i) - (f * h))) - (b * ((d * i) - (f * g))) + (c * ((d * h) - (e * g)));
}
