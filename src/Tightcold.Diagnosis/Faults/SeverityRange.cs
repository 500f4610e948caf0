using Tightcold.Numerics.Distributions;

namespace Tightcold.Diagnosis.Faults;

/// <summary>
/// How a severity spreads. What wears or silts up slowly is commoner small than large; what sticks, breaks or closes is
/// as often gross. Assumed.
/// </summary>
public enum SeverityLaw
{
    /// <summary>Beta(1, 2) on the range.</summary>
    MostlySmall,
    Even,

    /// <summary>Even in the logarithm of the area that is left, for throttles and lines.</summary>
    AreaLeft,
}

/// <summary>From “worth mending” to the worst.</summary>
public readonly record struct SeverityRange(double Least, double Most, SeverityLaw Law)
{
    /// <summary>The severity at a standard normal coordinate.</summary>
    public double At(double z)
    {
        var u = Normal.Cumulative(z);
        return Law switch
        {
            SeverityLaw.AreaLeft => 1 - ((1 - Least) * Math.Pow((1 - Most) / (1 - Least), u)),
            SeverityLaw.Even => Least + ((Most - Least) * u),
            _ => Least + ((Most - Least) * (1 - Math.Sqrt(Math.Max(0, 1 - u)))),
        };
    }
}
