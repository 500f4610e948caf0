namespace Tightcold.Procedures.Cold;

/// <summary>The first minutes after switching on, when ducts and dashboard still give off heat; assumed.</summary>
public static class DuctHeat
{
    private const double TimeConstantS = 150;

    /// <summary>What the ducts add to the vent of a car, K.</summary>
    public static double AddedK(in VentWeather weather, int car) =>
        weather.SecondsSinceStart is { } seconds
            ? Spread.Between(2, 10, car, 23) * Math.Exp(-Math.Max(0, seconds) / TimeConstantS)
            : 0;

    /// <summary>Standard deviation of cars and probe, K: wider in the first minutes, and wider still after standing in
    /// the sun.</summary>
    public static double SigmaK(in VentWeather weather, double settledSigmaK) =>
        settledSigmaK
        + (
            weather.SecondsSinceStart is { } seconds
                ? (weather.ParkedInSun ? 4 : 2) * Math.Exp(-Math.Max(0, seconds) / 200)
                : 0
        );
}
