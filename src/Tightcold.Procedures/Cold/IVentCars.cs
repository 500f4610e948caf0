namespace Tightcold.Procedures.Cold;

/// <summary>A crowd of cars as they might be, each healthy and with a fault, and the air they blow: what a vent reading
/// is held against. The same number is the same car in every weather. Modelled, with parameters spread out; not
/// measured.</summary>
public interface IVentCars
{
    /// <summary>How many.</summary>
    int Count { get; }

    /// <summary>Error of these cars and of the probe's place in the vent, settled, K, one standard deviation.</summary>
    double SettledSigmaK { get; }

    /// <summary>Cooling of the car with its fault as a share of the same car's without, 0 to 1.</summary>
    double SickShare(int car);

    /// <summary>Vent temperature of every car, healthy and with its fault, K.</summary>
    /// <param name="weather">Then.</param>
    /// <param name="healthyK">One for each car.</param>
    /// <param name="sickK">One for each car.</param>
    void Vents(in VentWeather weather, Span<double> healthyK, Span<double> sickK);

    /// <summary>How much warmer sound cars blow on average with this charge than with the right one, K.</summary>
    /// <param name="weather">Then.</param>
    /// <param name="chargeRatio">Charge over the right charge, 0 or more.</param>
    double WarmerByK(in VentWeather weather, double chargeRatio);
}
