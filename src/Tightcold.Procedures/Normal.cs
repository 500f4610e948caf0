namespace Tightcold.Procedures;

/// <summary>The normal distribution, as far as the procedures need it.</summary>
public static class Normal
{
    /// <summary>Φ(z), absolute error below 7.5e-8. Source: Abramowitz and Stegun, Handbook of Mathematical
    /// Functions, 26.2.17.</summary>
    public static double Cumulative(double z)
    {
        var k = 1 / (1 + 0.2316419 * Math.Abs(z));
        var tail =
            Density(z)
            * k
            * (0.319381530 + k * (-0.356563782 + k * (1.781477937 + k * (-1.821255978 + k * 1.330274429))));
        return z >= 0 ? 1 - tail : tail;
    }

    /// <summary>φ(z).</summary>
    public static double Density(double z) => Math.Exp(-0.5 * z * z) / Math.Sqrt(2 * Math.PI);
}
