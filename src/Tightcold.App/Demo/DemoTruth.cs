using Tightcold.Numerics.Roots;
using Tightcold.Procedures.Charging;
using Tightcold.Procedures.Standing;
using Tightcold.Properties;

namespace Tightcold.App.Demo;

/// <summary>What is true inside the invented car, from which the demo's gauges are read. Equations only: the
/// refrigerant's equation of state, a solution law for the oil, a pump through a hose, standard moist air.</summary>
internal static class DemoTruth
{
    public const double InternalVolumeM3 = 2.2e-3;
    public const double OilM3 = 120e-6;

    /// <summary>Interaction constant of this car's oil, and the share of it that refrigerant reaches at rest.</summary>
    private const double OilInteraction = 0.42;
    private const double OilReached = 0.6;

    /// <summary>True barometer of the day: a low-ish summer day at 640 m.</summary>
    public const double AirPa = 93_650;

    public static readonly Fluid Refrigerant = FluidCatalog.Get("R134a");

    /// <summary>Absolute pressure at which V·ρ(T,p) plus what the oil holds is <paramref name="massKg"/>.</summary>
    public static double StandingPa(double massKg, double temperatureK)
    {
        double Held(double pascals) =>
            InternalVolumeM3 * Refrigerant.AtTemperaturePressure(temperatureK, pascals).DensityKgPerM3
            + OilReached * OilSolution.DissolvedKg(Refrigerant, temperatureK, pascals, OilM3, OilInteraction);
        var saturatedPa = Refrigerant.SaturationAtTemperature(temperatureK).PressurePa;
        return BracketedRoot.Nearest(pascals => Held(pascals) - massKg, 1e3, 0.999 * saturatedPa, 1e-6);
    }

    public static double SaturationPa(double celsius) =>
        Refrigerant.SaturationAtTemperature(celsius + 273.15).PressurePa;

    /// <summary>
    /// Pressure after pumping for <paramref name="seconds"/> through a service hose with its core: air flows
    /// viscously, conductance proportional to pressure (135·d⁴·p/L in cm, mbar, L/s), and the oil gives off gas that
    /// fades. dp/dt = (−S_eff·p + q)/V, in small steps.
    /// </summary>
    public static double PumpedPa(double seconds)
    {
        double pressureMbar = AirPa / 100,
            time = 0;
        const double liters = InternalVolumeM3 * 1000,
            pumpLPerS = 1.2,
            step = 0.5;
        while (time < seconds)
        {
            // Two hoses of 5 mm × 1.8 m, core in: a third of the bare hose; the molecular floor is a hundredth of a
            // litre a second.
            var conductance = 2 * (135 * 0.0625 / 180 * pressureMbar / 3 + 12.1 * 0.125 / 180);
            var effective = 1 / (1 / pumpLPerS + 1 / conductance);
            var gasFromOil = 0.004 * Math.Exp(-time / 1500) + 0.0012;
            pressureMbar = Math.Max(
                0.02,
                pressureMbar + step * (-effective * (pressureMbar - 0.02) + gasFromOil) / liters
            );
            time += step;
        }
        return pressureMbar * 100;
    }

    /// <summary>Rise after the pump is shut off: what the oil still gives off, fading; no hole draws air.</summary>
    public static double HeldPa(double startPa, double seconds) => startPa + 9.0 * (1 - Math.Exp(-seconds / 700));

    /// <summary>Nitrogen in a closed space: p/T stays.</summary>
    public static double NitrogenGaugePa(double startGaugePa, double startC, double nowC) =>
        (startGaugePa + AirPa) * (nowC + 273.15) / (startC + 273.15) - AirPa;

    /// <summary>What a can keeps as vapour when it has given what it can.</summary>
    public static double HeelKg(double netAsSoldKg, double celsius) =>
        ChargePlan.HeelKg(
            Refrigerant,
            netAsSoldKg / (0.83 * Refrigerant.SaturationAtTemperature(298.15).LiquidDensityKgPerM3),
            celsius + 273.15
        );
}
