namespace Tightcold.Diagnosis.Leaks;

/// <summary>What a vacuum hold says about the whole car's leak rate.</summary>
/// <param name="AirKgPerS">Air drawn in: the largest that stays possible, or, when a leak was seen, its median.</param>
/// <param name="Spread">Standard deviation of the logarithm of that, when a leak was seen.</param>
/// <param name="Seen">Whether the hold showed a leak.</param>
/// <param name="LeastPerAir">Refrigerant at rest per air at vacuum, for an opening.</param>
/// <param name="MostPerAir">The same for a fine channel.</param>
/// <param name="AfterRepair">Held after the repairs.</param>
public readonly record struct HoldObservation(double AirKgPerS, double Spread, bool Seen, double LeastPerAir, double MostPerAir, bool AfterRepair)
{
    /// <summary>Lip seals and some cracks close under vacuum; assumed.</summary>
    private const double ClosesUnderVacuum = 0.2;
    private const int Laws = 6;

    /// <summary>ln of the likelihood of this hold for a total rate at rest, kg/s, averaged over the laws of flow.</summary>
    public double LogLikelihood(double totalKgPerS)
    {
        var sum = 0.0;
        for (var i = 0; i < Laws; i++)
        {
            var perAir = LeastPerAir * Math.Pow(MostPerAir / LeastPerAir, (i + 0.5) / Laws);
            var ratio = totalKgPerS / perAir / AirKgPerS;
            sum += Seen ? Math.Exp(-0.5 * Math.Pow(Math.Log(ratio) / Math.Max(Spread, 0.3), 2)) : 1 / (1 + ratio * ratio * ratio);
        }
        return Math.Log((Seen ? 0.02 : ClosesUnderVacuum) + (1 - ClosesUnderVacuum) * sum / Laws);
    }
}
