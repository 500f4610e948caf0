namespace Tightcold.Procedures.Cold;

/// <summary>What a healthy car blows in this weather: a band from moist-air physics over what is not known of the
/// car, never a constant.</summary>
/// <param name="MedianK">Half of healthy cars blow colder.</param>
/// <param name="LowK">5 % blow colder.</param>
/// <param name="HighK">5 % blow warmer.</param>
public sealed record VentBand(double MedianK, double LowK, double HighK)
{
    private VentWeather weather;
    private double[] healthyK = [];
    private double[] sickK = [];

    internal double[] HealthyK => healthyK;
    internal double[] SickK => sickK;

    public static VentBand Of(VentWeather weather)
    {
        var healthy = new double[VentModel.Samples];
        var sick = new double[VentModel.Samples];
        for (var i = 0; i < VentModel.Samples; i++)
        {
            healthy[i] = VentModel.Vent(weather, i + 1, 1);
            sick[i] = VentModel.Vent(weather, i + 1, VentModel.SickShare(i + 1));
        }
        var sorted = healthy.Order().ToArray();
        return new(sorted[VentModel.Samples / 2], sorted[VentModel.Samples / 20], sorted[VentModel.Samples - 1 - VentModel.Samples / 20])
        {
            healthyK = healthy, sickK = sick, weather = weather,
        };
    }

    /// <summary>Odds that a car blowing <paramref name="ventK"/> is as a healthy one, 0 to 1, against one with a
    /// weakened or absent cooling, even odds before the reading.</summary>
    public double OddsHealthy(double ventK, double thermometerSigmaK) => ColdProof.Of([new(weather, ventK, thermometerSigmaK, this)]).OddsHealthy;

    /// <summary>How much warmer the middle car would blow with this share of its cooling, K.</summary>
    /// <param name="capacityShare">0 to 1.</param>
    public double WarmerByK(double capacityShare)
    {
        if (!(capacityShare is >= 0 and <= 1)) throw new ArgumentOutOfRangeException(nameof(capacityShare), capacityShare, "0 to 1");
        double sum = 0;
        var used = 0;
        for (var i = 0; i < VentModel.Samples; i += 8, used++) sum += VentModel.Vent(weather, i + 1, capacityShare) - healthyK[i];
        return sum / used;
    }
}
