using Tightcold.Numerics.Distributions;

namespace Tightcold.Procedures.Cold;

/// <summary>Whether the coil may freeze up: frost needs fins below 0 °C and air damp enough to settle there.</summary>
/// <param name="BelowFreezing">Probability that the fins stand below 0 °C, 0 to 1.</param>
/// <param name="DampEnough">The air's water would settle at 0 °C.</param>
public readonly record struct IcingRisk(double BelowFreezing, bool DampEnough)
{
    private const double FreezingK = 273.15;
    private const int Coils = 512;

    /// <summary>Fins are warmer than the boiling refrigerant inside by 2 to 6 K; common practice.</summary>
    private const double LeastFinK = 2;
    private const double MostFinK = 6;

    public double Chance => DampEnough ? BelowFreezing : 0;

    /// <param name="observation">A settled reading.</param>
    /// <param name="boilingK">Saturation temperature of the low side then, or null when no gauge was read.</param>
    public static IcingRisk Of(VentObservation observation, double? boilingK)
    {
        var weather = observation.Weather;
        double below = 0;
        for (var i = 0; i < Coils; i++)
        {
            var (bypass, added, _) = CoilCars.Coil(i + 1);
            var coilK = (observation.VentK - added - bypass * weather.IntakeK) / (1 - bypass);
            below += Normal.Cumulative((FreezingK - coilK) / Math.Max(0.3, observation.ThermometerSigmaK)) / Coils;
        }
        if (boilingK is { } boiling)
        {
            var byGauge = Math.Clamp((FreezingK - boiling - LeastFinK) / (MostFinK - LeastFinK), 0, 1);
            below = 0.5 * (below + byGauge);
        }
        return new(below, weather.IntakeHumidityRatio > DampAir.SaturatedRatio(FreezingK, weather.BarometerPa));
    }
}
