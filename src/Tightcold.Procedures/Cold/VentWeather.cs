namespace Tightcold.Procedures.Cold;

/// <summary>What the vent temperature is judged against.</summary>
/// <param name="IntakeK">Air the blower takes: outside air on fresh, cabin air on recirculation.</param>
/// <param name="IntakeHumidityRatio">Water in that air, kg per kg dry air.</param>
/// <param name="IntakeSigmaK">How well the intake temperature is known.</param>
/// <param name="AmbientK">Outside air, which cools the condenser.</param>
/// <param name="BarometerPa">Air pressure of the place.</param>
/// <param name="Blower">low, medium, full or null.</param>
/// <param name="Moving">Driving or at raised speed: true; idling parked: false; null unknown.</param>
/// <param name="SecondsSinceStart">Since the A/C was switched on; null when settled is assumed.</param>
/// <param name="ParkedInSun">Hot ground and its own exhaust air warm what the condenser gets by up to 10 K; common
/// practice.</param>
public readonly record struct VentWeather(
    double IntakeK,
    double IntakeHumidityRatio,
    double IntakeSigmaK,
    double AmbientK,
    double BarometerPa,
    string? Blower,
    bool? Moving,
    double? SecondsSinceStart,
    bool ParkedInSun = false
);
