namespace Tightcold.Procedures.Cold;

/// <summary>One reading at the vent and what it is judged against.</summary>
/// <param name="Weather">Then.</param>
/// <param name="VentK">Read.</param>
/// <param name="ThermometerSigmaK">Standard deviation of the thermometer.</param>
/// <param name="Band">Of that weather.</param>
public readonly record struct VentObservation(
    VentWeather Weather,
    double VentK,
    double ThermometerSigmaK,
    VentBand Band
)
{
    public static VentObservation Of(VentWeather weather, double ventK, double thermometerSigmaK, IVentCars cars) =>
        new(weather, ventK, thermometerSigmaK, VentBand.Of(weather, cars));
}
