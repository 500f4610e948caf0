namespace Tightcold.Procedures.Hold;

/// <summary>How long to hold in order to see a leak of a given rate.</summary>
/// <param name="LeastSeconds">If the hole is of the kind that draws most air for the refrigerant it loses (an
/// opening).</param>
/// <param name="MostSeconds">If it is a fine channel.</param>
/// <param name="Never">Even the best case asks for longer than any hold can be trusted.</param>
public readonly record struct HoldPlan(double LeastSeconds, double MostSeconds, bool Never)
{
    /// <summary>Beyond this the car's temperature and its oil move the pressure more than such a leak does;
    /// assumed.</summary>
    public const double LongestTrustedSeconds = 12 * 3600;

    /// <summary>A rise below this is within what oil gives off on a dry system; assumed, Pa.</summary>
    public const double OilNoisePa = 30;

    /// <param name="refrigerantKgPerS">Leak to be seen, as refrigerant at rest pressure.</param>
    /// <param name="floorPaM3PerS">Floor of a hold like this one.</param>
    /// <param name="heldSeconds">How long that one was; the floor falls as 1/time for the same number of
    /// readings.</param>
    /// <param name="perAir">Refrigerant lost per air drawn in, least and most, kg/kg.</param>
    public static HoldPlan For(
        double refrigerantKgPerS,
        double floorPaM3PerS,
        double heldSeconds,
        double volumeM3,
        double temperatureK,
        (double Least, double Most) perAir
    )
    {
        double Seconds(double refrigerantPerAir)
        {
            var throughput = refrigerantKgPerS / refrigerantPerAir / Vacuum.LeakEquivalent.AirKgPerS(1, temperatureK);
            return Math.Max(heldSeconds * floorPaM3PerS / throughput, OilNoisePa * volumeM3 / throughput);
        }
        var least = Seconds(perAir.Least);
        return new(least, Seconds(perAir.Most), least > LongestTrustedSeconds);
    }
}
