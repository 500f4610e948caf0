namespace Tightcold.Diagnosis.Leaks;

/// <summary>The gas and the place that a leak works in.</summary>
/// <param name="RestPressurePa">Absolute, with liquid inside at 25 °C: leak rates are given there.</param>
/// <param name="BarometerPa">Outside.</param>
/// <param name="ViscosityRatio">Of the refrigerant's vapour over nitrogen's.</param>
/// <param name="MolarMassKgPerMol">Of the refrigerant.</param>
public sealed record LeakSetting(
    double RestPressurePa,
    double BarometerPa,
    double ViscosityRatio,
    double MolarMassKgPerMol
)
{
    private const double GasConstant = 8.314462618;

    /// <summary>R-134a at sea level: 665.4 kPa at 25 °C; 11.8 µPa·s against 17.8 of nitrogen.</summary>
    public static readonly LeakSetting Usual = new(665_400, 101_325, 0.66, 0.10203);

    /// <summary>Rate at a pressure over the rate at rest, in a viscous channel: (p₁² − pₐ²)/(p_rest² − pₐ²). Leaks
    /// that matter here, 1e-5 mbar·L/s and up, flow viscously; zero at or below the air's pressure.</summary>
    public double Drive(double pressurePa) =>
        Math.Max(0, pressurePa * pressurePa - BarometerPa * BarometerPa)
        / (RestPressurePa * RestPressurePa - BarometerPa * BarometerPa);

    /// <summary>Throughput Pa·m³/s of a mass rate: Q = (ṁ/M)·R·T.</summary>
    public double Throughput(double kilogramsPerSecond, double temperatureK) =>
        kilogramsPerSecond / MolarMassKgPerMol * GasConstant * temperatureK;
}
