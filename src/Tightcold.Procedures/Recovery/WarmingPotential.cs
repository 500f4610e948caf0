namespace Tightcold.Procedures.Recovery;

/// <summary>How much carbon dioxide warms as much over 100 years as the same mass of a refrigerant.</summary>
/// <param name="Fourth">Fourth assessment report (2007), the figures most rules still use.</param>
/// <param name="Fifth">Fifth report (2013).</param>
/// <remarks>From memory of the reports, but R-134a 1430 looked up; R-1234yf in the fourth column is the value that an
/// EU annex uses, since that report holds none; in the fifth it is “below 1”, taken as 1.</remarks>
public readonly record struct WarmingPotential(double Fourth, double Fifth)
{
    /// <summary>Null for what is not known by name, such as a mixture.</summary>
    public static WarmingPotential? Of(string refrigerant) =>
        refrigerant switch
        {
            "R-134a" => new(1430, 1300),
            "R-1234yf" => new(4, 1),
            "R-152a" => new(124, 138),
            "R-744" => new(1, 1),
            "R-12" => new(10_900, 10_200),
            _ => null,
        };
}
