namespace Tightcold.Procedures.Oil;

/// <summary>Oil that has to be in a replacement compressor.</summary>
/// <param name="LowM3">Least of the published rules.</param>
/// <param name="HighM3">Most of them.</param>
/// <param name="PourOutM3">To pour out of a new compressor that came filled; null when its fill is not known.</param>
public readonly record struct CompressorOil(double LowM3, double HighM3, double? PourOutM3)
{
    private const double FluidOunceM3 = 29.5735e-6;

    /// <summary>Stays inside an old compressor however it is turned: 20 mL by one published rule.</summary>
    private const double StaysInsideM3 = 20e-6;

    /// <summary>
    /// Three published rules disagree; their span is given. One: drained 3 to 5 oz → that and 1 oz; more → equal; less
    /// → 3 oz. Another: equal to what was drained and the 20 mL that stay inside. The vehicle maker's figure rules.
    /// </summary>
    /// <param name="drainedM3">Out of the old compressor, measured; 0 or more.</param>
    /// <param name="filledM3">In the new one as delivered (its label), or null.</param>
    public static CompressorOil Of(double drainedM3, double? filledM3)
    {
        if (!(drainedM3 >= 0 && drainedM3 < 1e-3))
            throw new ArgumentOutOfRangeException(nameof(drainedM3), drainedM3, "0 to 1 L of oil");
        var ounces = drainedM3 / FluidOunceM3;
        var byOunces =
            ounces < 3 ? 3 * FluidOunceM3
            : ounces <= 5 ? drainedM3 + FluidOunceM3
            : drainedM3;
        var byWhatStays = drainedM3 + StaysInsideM3;
        var (low, high) = (Math.Min(byOunces, byWhatStays), Math.Max(byOunces, byWhatStays));
        return new(low, high, filledM3 is { } fill ? Math.Max(0, fill - 0.5 * (low + high)) : null);
    }
}
