namespace Tightcold.Loop.Refrigerant;

/// <summary>Least squares of y(x) = a f(x) + b x/(x+near) + c x/(x+far), weighted with 1/x2 so that the near end
/// counts.</summary>
internal static class ThreeTermFit
{
    public static (double A, double B, double C) Fit(
        ReadOnlySpan<double> x,
        ReadOnlySpan<double> first,
        ReadOnlySpan<double> y
    )
    {
        Span<double> m = stackalloc double[9],
            r = stackalloc double[3],
            basis = stackalloc double[3];
        m.Clear();
        r.Clear();
        for (var i = 0; i < x.Length; i++)
        {
            var weight = 1 / (x[i] * x[i]);
            basis[0] = first[i];
            basis[1] = x[i] / (x[i] + SaturationRow.NearK);
            basis[2] = x[i] / (x[i] + SaturationRow.FarK);
            for (var j = 0; j < 3; j++)
            {
                r[j] += weight * basis[j] * y[i];
                for (var k = 0; k < 3; k++)
                    m[(3 * j) + k] += weight * basis[j] * basis[k];
            }
        }

        var det = Determinant(m[0], m[1], m[2], m[3], m[4], m[5], m[6], m[7], m[8]);
        return (
            Determinant(r[0], m[1], m[2], r[1], m[4], m[5], r[2], m[7], m[8]) / det,
            Determinant(m[0], r[0], m[2], m[3], r[1], m[5], m[6], r[2], m[8]) / det,
            Determinant(m[0], m[1], r[0], m[3], m[4], r[1], m[6], m[7], r[2]) / det
        );
    }

    private static double Determinant(
        double a,
        double b,
        double c,
        double d,
        double e,
        double f,
        double g,
        double h,
        double i
    ) => (a * ((e * i) - (f * h))) - (b * ((d * i) - (f * g))) + (c * ((d * h) - (e * g)));
}
