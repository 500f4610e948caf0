namespace Tightcold.Loop.Inventory;

/// <summary>
/// Share of a tube's section that is vapour, with the slip of Zivi [zivi1964] (S. M. Zivi, J. Heat Transfer 86, 1964,
/// 247): alpha = x / (x + c (1 - x)), c = (rho_v / rho_l)^(2/3). The mean over a linear change of quality is closed
/// form.
/// </summary>
internal static class VoidFraction
{
    // Below this change of quality the difference of two logarithms loses its digits; the midpoint is then exact
    // enough.
    private const double SmallChange = 1e-5;

    // Two elementary functions: quicker than a cube root, and asked twice a march.
    public static double Slip(double vapourDensity, double liquidDensity) =>
        Math.Exp(2.0 / 3 * Math.Log(vapourDensity / liquidDensity));

    /// <summary>Mean void fraction where quality runs evenly from one value to another, both 0 to 1.</summary>
    public static double Mean(double fromQuality, double toQuality, double slip)
    {
        var change = toQuality - fromQuality;
        if (Math.Abs(change) < SmallChange)
        {
            var x = 0.5 * (fromQuality + toQuality);
            return x / (x + (slip * (1 - x)));
        }

        // F(x) = x/(1-c) - c/(1-c)^2 ln(x (1-c) + c)
        var rest = 1 - slip;
        var log = Math.Log(((toQuality * rest) + slip) / ((fromQuality * rest) + slip));
        return (1 / rest) - (slip / (rest * rest) * log / change);
    }
}
