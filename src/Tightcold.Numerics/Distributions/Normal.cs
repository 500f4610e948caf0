namespace Tightcold.Numerics.Distributions;

/// <summary>The standard normal distribution.</summary>
public static class Normal
{
    /// <summary>ln √(2π).</summary>
    public const double LogRootTwoPi = 0.91893853320467274;

    // Quantiles: middle, shoulder and tail, coefficients from the constant up.
    private static readonly double[] MiddleOver =
    [
        3.3871328727963666080,
        133.14166789178437745,
        1971.5909503065514427,
        13731.693765509461125,
        45921.953931549871457,
        67265.770927008700853,
        33430.575583588128105,
        2509.0809287301226727,
    ];

    private static readonly double[] MiddleUnder =
    [
        1,
        42.313330701600911252,
        687.18700749205790830,
        5394.1960214247511077,
        21213.794301586595867,
        39307.895800092710610,
        28729.085735721942674,
        5226.4952788528545610,
    ];

    private static readonly double[] ShoulderOver =
    [
        1.42343711074968357734,
        4.63033784615654529590,
        5.76949722146069140550,
        3.64784832476320460504,
        1.27045825245236838258,
        0.241780725177450611770,
        0.0227238449892691845833,
        7.74545014278341407640e-4,
    ];

    private static readonly double[] ShoulderUnder =
    [
        1,
        2.05319162663775882187,
        1.67638483018380384940,
        0.689767334985100004550,
        0.148103976427480074590,
        0.0151986665636164571966,
        5.47593808499534494600e-4,
        1.05075007164441684324e-9,
    ];

    private static readonly double[] TailOver =
    [
        6.65790464350110377720,
        5.46378491116411436990,
        1.78482653991729133580,
        0.296560571828504891230,
        0.0265321895265761230930,
        1.24266094738807843860e-3,
        2.71155556874348757815e-5,
        2.01033439929228813265e-7,
    ];

    private static readonly double[] TailUnder =
    [
        1,
        0.599832206555887937690,
        0.136929880922735805310,
        0.0148753612908506148525,
        7.86869131145613259100e-4,
        1.84631831751005468180e-5,
        1.42151175831644588870e-7,
        2.04426310338993978564e-15,
    ];

    /// <summary>φ(z).</summary>
    public static double Density(double z) => Math.Exp(-0.5 * z * z) / Math.Sqrt(2 * Math.PI);

    /// <summary>Φ(z), the share below z; relative error below 3e-13 also where next to nothing lies below. [cody1969]
    /// Cody (1969), Rational Chebyshev approximations for the error function, Math. Comp. 23, 631.</summary>
    /// <remarks>The quotients are written out: what weighs a hold asks for two at each reading and try.</remarks>
    public static double Cumulative(double z)
    {
        var y = Math.Abs(z) / Math.Sqrt(2);
        if (y <= 0.46875)
            return 0.5 + (0.5 * z / Math.Sqrt(2) * Near(y * y));
        var tail = 0.5 * Math.Exp(-0.5 * z * z) * (y <= 4 ? Away(y) : Far(y));
        return z > 0 ? 1 - tail : tail;
    }

    /// <summary>erf(y)/y over y², to y = 0.46875.</summary>
    private static double Near(double r)
    {
        var over = 0.185777706184603153;
        over = (over * r) + 3.16112374387056560;
        over = (over * r) + 113.864154151050156;
        over = (over * r) + 377.485237685302021;
        over = (over * r) + 3209.37758913846947;
        var under = r + 23.6012909523441209;
        under = (under * r) + 244.024637934444173;
        under = (under * r) + 1282.61652607737228;
        under = (under * r) + 2844.23683343917062;
        return over / under;
    }

    /// <summary>erfc(y) exp(y²) from there to y = 4.</summary>
    private static double Away(double y)
    {
        var over = 2.15311535474403846e-8;
        over = (over * y) + 0.564188496988670089;
        over = (over * y) + 8.88314979438837594;
        over = (over * y) + 66.1191906371416295;
        over = (over * y) + 298.635138197400131;
        over = (over * y) + 881.952221241769090;
        over = (over * y) + 1712.04761263407058;
        over = (over * y) + 2051.07837782607147;
        over = (over * y) + 1230.33935479799725;
        var under = y + 15.7449261107098347;
        under = (under * y) + 117.693950891312499;
        under = (under * y) + 537.181101862009858;
        under = (under * y) + 1621.38957456669019;
        under = (under * y) + 3290.79923573345963;
        under = (under * y) + 4362.61909014324716;
        under = (under * y) + 3439.36767414372164;
        under = (under * y) + 1230.33935480374942;
        return over / under;
    }

    /// <summary>The same beyond.</summary>
    private static double Far(double y)
    {
        var r = 1 / (y * y);
        var over = 1.63153871373020978e-2;
        over = (over * r) + 0.305326634961232344;
        over = (over * r) + 0.360344899949804439;
        over = (over * r) + 0.125781726111229246;
        over = (over * r) + 1.60837851487422766e-2;
        over = (over * r) + 6.58749161529837803e-4;
        var under = r + 2.56852019228982242;
        under = (under * r) + 1.87295284992346725;
        under = (under * r) + 0.527905102951428412;
        under = (under * r) + 6.05183413124413191e-2;
        under = (under * r) + 2.33520497626869185e-3;
        return ((1 / Math.Sqrt(Math.PI)) - (r * over / under)) / y;
    }

    /// <summary>The x below which a share u lies, 0 &lt; u &lt; 1, relative error about 1e-15. [wichura1988]
    /// Wichura (1988), Algorithm AS 241, Appl. Stat. 37, 477.</summary>
    public static double Quantile(double u)
    {
        var q = u - 0.5;
        if (Math.Abs(q) <= 0.425)
        {
            var r = 0.180625 - (q * q);
            return q * Polynomial(MiddleOver, r) / Polynomial(MiddleUnder, r);
        }

        var tail = Math.Sqrt(-Math.Log(q < 0 ? u : 1 - u));
        var x =
            tail <= 5
                ? Polynomial(ShoulderOver, tail - 1.6) / Polynomial(ShoulderUnder, tail - 1.6)
                : Polynomial(TailOver, tail - 5) / Polynomial(TailUnder, tail - 5);
        return q < 0 ? -x : x;
    }

    private static double Polynomial(double[] c, double x)
    {
        var sum = c[^1];
        for (var i = c.Length - 2; i >= 0; i--)
            sum = (sum * x) + c[i];
        return sum;
    }
}
