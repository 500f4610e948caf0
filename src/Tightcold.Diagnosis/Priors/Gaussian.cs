using Tightcold.Procedures;

namespace Tightcold.Diagnosis.Priors;

/// <summary>The inverse of the standard normal distribution.</summary>
internal static class Gaussian
{
    /// <summary>The x below which a share u lies, 0 &lt; u &lt; 1: bisection, as it is needed only where points are drawn.</summary>
    public static double Quantile(double u)
    {
        double low = -7, high = 7;
        for (var i = 0; i < 50; i++)
        {
            var middle = 0.5 * (low + high);
            if (Normal.Cumulative(middle) < u) low = middle; else high = middle;
        }

        return 0.5 * (low + high);
    }
}
