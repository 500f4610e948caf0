using Tightcold.Numerics.Roots;
using Tightcold.Properties;

namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// Evaporator by marching along the refrigerant, each piece with its own surface temperature and a bypass factor for
/// the air (contact-factor method of the air handling trade: what touches leaves at the surface's state, the rest
/// passes by).
/// </summary>
public static class Evaporator
{
    private const int Pieces = 28;
    private const double GasFilm = 0.07;
    private const double NominalKgPerS = 0.04;

    public readonly record struct Result(
        double OutJPerKg,
        double CoolingW,
        double AirOffC,
        double AirOffRatio,
        double ColdestC,
        double MassKg
    );

    /// <param name="fluid">The refrigerant.</param>
    /// <param name="car">The car.</param>
    /// <param name="surfaceFactor">Share of the surface that still works (ice, blocked fins).</param>
    /// <param name="pressurePa">Evaporating pressure, absolute.</param>
    /// <param name="flowKgPerS">Refrigerant.</param>
    /// <param name="inJPerKg">Enthalpy behind the valve.</param>
    /// <param name="airKgPerS">Dry air through the core.</param>
    /// <param name="airC">Before the core.</param>
    /// <param name="airRatio">Humidity ratio before the core.</param>
    /// <param name="airPa">Pressure of the air.</param>
    public static Result March(
        FastFluid fluid,
        CarBuild car,
        double surfaceFactor,
        double pressurePa,
        double flowKgPerS,
        double inJPerKg,
        double airKgPerS,
        double airC,
        double airRatio,
        double airPa
    )
    {
        var line = fluid.SaturationAtPressure(pressurePa);
        var latent = line.VapourEnthalpyJPerKg - line.LiquidEnthalpyJPerKg;
        var piece = 1.0 / Pieces;
        var airUa = car.EvaporatorAirWPerK * surfaceFactor * Math.Pow(airKgPerS / 0.12, 0.5);
        var contact = 1 - Math.Exp(-airUa / (airKgPerS * Psychrometrics.AirJPerKgK));
        var film = car.EvaporatorRefrigerantWPerK * piece * surfaceFactor * Math.Pow(flowKgPerS / NominalKgPerS, 0.55);
        var touching = airKgPerS * piece * contact;
        var volume = car.EvaporatorVolumeM3 * piece;
        double enthalpy = inJPerKg,
            cooling = 0,
            offC = 0,
            offRatio = 0,
            coldest = double.MaxValue,
            mass = 0;
        for (var i = 0; i < Pieces; i++)
        {
            double temperature,
                conductance;
            var quality = (enthalpy - line.LiquidEnthalpyJPerKg) / latent;
            if (quality < 1)
            {
                temperature = line.TemperatureK - 273.15;
                var dry = Math.Clamp((quality - 0.82) / 0.18, 0, 1);
                conductance = film * (1 - dry * (1 - GasFilm));
            }
            else
            {
                temperature = fluid.AtPressureEnthalpy(pressurePa, enthalpy).TemperatureK - 273.15;
                conductance = film * GasFilm;
            }
            var surface = Surface(conductance, temperature, touching, airC, airRatio, airPa);
            var heat = touching * Psychrometrics.Given(airC, airRatio, surface, airPa);
            var next = enthalpy + heat / flowKgPerS;
            var ceiling =
                airC + 273.15 > line.TemperatureK + 0.02
                    ? fluid.AtPressureTemperature(pressurePa, airC + 273.15).EnthalpyJPerKg
                    : next;
            if (next > ceiling)
            {
                next = Math.Max(enthalpy, ceiling);
                heat = (next - enthalpy) * flowKgPerS;
                // Little refrigerant: the surface is as warm as the heat that is left asks for.
                surface = airC - Math.Min(airC - surface, heat / Math.Max(1e-9, touching * Psychrometrics.AirJPerKgK));
            }
            if (heat < 0 && airC + 273.15 < line.TemperatureK - 0.02)
            {
                // Refrigerant warmer than the air gives heat off, down to the air's temperature at most.
                var floor = fluid.AtPressureTemperature(pressurePa, airC + 273.15).EnthalpyJPerKg;
                next = Math.Max(next, Math.Min(enthalpy, floor));
                heat = (next - enthalpy) * flowKgPerS;
                surface = airC + Math.Min(surface - airC, -heat / Math.Max(1e-9, touching * Psychrometrics.AirJPerKgK));
            }
            cooling += heat;
            offC += piece * (airC - contact * (airC - surface));
            offRatio +=
                piece * (airRatio - contact * Math.Max(0, airRatio - Psychrometrics.SaturationRatio(surface, airPa)));
            coldest = Math.Min(coldest, surface);
            mass += Condenser.Hold(fluid, line, pressurePa, 0.5 * (enthalpy + next)).Density * volume;
            enthalpy = next;
        }
        return new(enthalpy, cooling, offC, offRatio, coldest, mass);
    }

    /// <summary>
    /// The surface between film and air: heat in equals heat out. Monotone, so one root between refrigerant and air.
    /// </summary>
    private static double Surface(
        double conductance,
        double refrigerantC,
        double touching,
        double airC,
        double ratio,
        double airPa
    )
    {
        return BracketedRoot.Nearest(
            new HeatExcess(conductance, refrigerantC, touching, airC, ratio, airPa),
            Math.Min(refrigerantC, airC),
            Math.Max(refrigerantC, airC),
            1e-6
        );
    }

    /// <summary>Heat from the surface into the film above what the air gives it, W, over the surface's °C.</summary>
    private readonly struct HeatExcess(
        double conductance,
        double refrigerantC,
        double touching,
        double airC,
        double ratio,
        double airPa
    ) : IScalarFunction
    {
        public double Evaluate(double x) =>
            conductance * (x - refrigerantC) - touching * Psychrometrics.Given(airC, ratio, x, airPa);
    }
}
