using Tightcold.Numerics.Sampling;

namespace Tightcold.Procedures.Cold;

/// <summary>What a healthy car blows in this weather: a band over what is not known of the car, never a
/// constant.</summary>
/// <param name="MedianK">Half of healthy cars blow colder.</param>
/// <param name="LowK">5 % blow colder.</param>
/// <param name="HighK">5 % blow warmer.</param>
public sealed record VentBand(double MedianK, double LowK, double HighK)
{
    private VentWeather weather;

    internal IVentCars Cars { get; private init; } = CoilCars.Usual;
    internal double[] HealthyK { get; private init; } = [];
    internal double[] SickK { get; private init; } = [];

    public static VentBand Of(VentWeather weather, IVentCars cars)
    {
        ArgumentNullException.ThrowIfNull(cars);
        var (healthy, sick) = (new double[cars.Count], new double[cars.Count]);
        cars.Vents(weather, healthy, sick);
        var sorted = healthy.Order().ToArray();
        double At(double share) => Quantile.Of(sorted, share);
        return new(At(0.5), At(0.05), At(0.95))
        {
            HealthyK = healthy,
            SickK = sick,
            Cars = cars,
            weather = weather,
        };
    }

    /// <summary>Odds that a car blowing <paramref name="ventK"/> is as a healthy one, 0 to 1, against one with a
    /// weakened or absent cooling, even odds before the reading.</summary>
    public double OddsHealthy(double ventK, double thermometerSigmaK) =>
        ColdProof.Of([new(weather, ventK, thermometerSigmaK, this)]).OddsHealthy;

    /// <summary>How much warmer sound cars would blow if their charge lay anywhere between these, at the most,
    /// K.</summary>
    /// <param name="leastRatio">Charge over the right charge, 0 or more.</param>
    /// <param name="mostRatio">The same, not below the least.</param>
    public double WarmerByK(double leastRatio, double mostRatio)
    {
        if (!(leastRatio >= 0 && mostRatio >= leastRatio && double.IsFinite(mostRatio)))
            throw new ArgumentOutOfRangeException(nameof(leastRatio), leastRatio, "0 or more, and not above the other");
        return Math.Max(0, Math.Max(Cars.WarmerByK(weather, leastRatio), Cars.WarmerByK(weather, mostRatio)));
    }
}
