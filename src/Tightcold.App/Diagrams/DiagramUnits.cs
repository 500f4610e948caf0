using Tightcold.App.Units;

namespace Tightcold.App.Diagrams;

/// <summary>The units of diagrams and saturation tables: names, and ways from SI. Pressures absolute unless the name
/// says gauge.</summary>
public sealed class DiagramUnits
{
    private DiagramUnits(
        string temperature,
        string pressure,
        string gauge,
        string enthalpy,
        string entropy,
        string density,
        Func<double, double> temperatureFromK,
        Func<double, double> pressureFromPa,
        Func<double, double> enthalpyFromJPerKg,
        Func<double, double> entropyFromJPerKgK,
        Func<double, double> densityFromKgPerM3,
        Func<double, double> temperatureToK
    )
    {
        (Temperature, Pressure, GaugePressure, Enthalpy, Entropy, Density) = (
            temperature,
            pressure,
            gauge,
            enthalpy,
            entropy,
            density
        );
        (TemperatureFromK, PressureFromPa, EnthalpyFromJPerKg, EntropyFromJPerKgK, DensityFromKgPerM3, TemperatureToK) =
            (
                temperatureFromK,
                pressureFromPa,
                enthalpyFromJPerKg,
                entropyFromJPerKgK,
                densityFromKgPerM3,
                temperatureToK
            );
    }

    public static DiagramUnits Metric { get; } =
        new(
            "°C",
            "bar abs",
            "bar gauge",
            "kJ/kg",
            "kJ/(kg K)",
            "kg/m³",
            k => k - Factor.ZeroCelsius,
            pa => pa / Factor.Bar,
            h => h / 1e3,
            s => s / 1e3,
            rho => rho,
            t => t + Factor.ZeroCelsius
        );

    public static DiagramUnits Us { get; } =
        new(
            "°F",
            "psia",
            "psig",
            "Btu/lb",
            "Btu/(lb °F)",
            "lb/ft³",
            k => (k - Factor.ZeroFahrenheit) / Factor.Fahrenheit,
            pa => pa / Factor.PoundPerSquareInch,
            h => h / Factor.BtuPerPound,
            s => s / Factor.BtuPerPoundFahrenheit,
            rho => rho / Factor.PoundPerCubicFoot,
            t => (t * Factor.Fahrenheit) + Factor.ZeroFahrenheit
        );

    public string Temperature { get; }

    public string Pressure { get; }

    public string GaugePressure { get; }

    public string Enthalpy { get; }

    public string Entropy { get; }

    public string Density { get; }

    public Func<double, double> TemperatureFromK { get; }

    public Func<double, double> PressureFromPa { get; }

    public Func<double, double> EnthalpyFromJPerKg { get; }

    public Func<double, double> EntropyFromJPerKgK { get; }

    public Func<double, double> DensityFromKgPerM3 { get; }

    public Func<double, double> TemperatureToK { get; }

    public static DiagramUnits For(Units.UnitSystem system) => system == Units.UnitSystem.Us ? Us : Metric;
}
