using Tightcold.Properties;

namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// Condenser by marching: forty pieces of tube one behind the other, each in its own air, with the refrigerant film of
/// its phase. The top is blown better than the bottom and the bottom breathes the air that comes back warm. What liquid
/// it holds follows from the slip of Zivi (J. Heat Transfer 86, 1964, eq. 20).
/// </summary>
public static class Condenser
{
    private const int Pieces = 40;

    // Film of gas and of liquid against that of condensing refrigerant, at the nominal flow.
    private const double GasFilm = 0.16;
    private const double LiquidFilm = 0.22;
    private const double BubbleFilm = 0.5;
    private const double DewFilm = 1.05;
    private const double NominalKgPerS = 0.04;

    public readonly record struct Result(
        double OutJPerKg,
        double ReceiverInJPerKg,
        double HeatW,
        double LiquidKg,
        double GasM3,
        double MassKg,
        double AirOutC
    );

    /// <param name="fluid">The refrigerant.</param>
    /// <param name="car">The car.</param>
    /// <param name="openTubes">Share of tubes that carry refrigerant.</param>
    /// <param name="gasInFilm">Factor on the condensing film for air mixed in, 0 to 1.</param>
    /// <param name="pressurePa">Condensing pressure, absolute (of the refrigerant alone).</param>
    /// <param name="flowKgPerS">Refrigerant.</param>
    /// <param name="inJPerKg">Enthalpy at the inlet.</param>
    /// <param name="airKgPerS">Through the core.</param>
    /// <param name="airC">Of the outside air.</param>
    /// <param name="hotReturn">Share of air that comes back from behind the core.</param>
    public static Result March(
        FastFluid fluid,
        CarBuild car,
        double openTubes,
        double gasInFilm,
        double pressurePa,
        double flowKgPerS,
        double inJPerKg,
        double airKgPerS,
        double airC,
        double hotReturn
    )
    {
        var line = fluid.SaturationAtPressure(pressurePa);
        var latent = line.VapourEnthalpyJPerKg - line.LiquidEnthalpyJPerKg;
        var flowFactor = Math.Pow(flowKgPerS / (NominalKgPerS * openTubes), 0.6);
        var airFactor = Math.Pow(airKgPerS / 0.7, 0.55);
        var piece = 1.0 / Pieces;
        var airUa = car.CondenserAirWPerK * airFactor * piece * openTubes;
        var film = car.CondenserRefrigerantWPerK * flowFactor * piece * openTubes * gasInFilm;
        var pieceAir = airKgPerS * piece;
        var volume = car.CondenserVolumeM3 * piece;
        var mainPieces = (int)Math.Round(Pieces * (1 - car.SubcoolShare));
        double enthalpy = inJPerKg,
            heat = 0,
            liquid = 0,
            mass = 0,
            gas = 0,
            receiverIn = inJPerKg;
        // The air that comes back is as warm as the core makes it when all condenses, and never warmer than a hot core.
        const double HottestReturnK = 70;
        var returned = Math.Min(
            HottestReturnK,
            flowKgPerS * Math.Max(0, inJPerKg - line.LiquidEnthalpyJPerKg) / (airKgPerS * Psychrometrics.AirJPerKgK)
        );
        for (var i = 0; i < Pieces; i++)
        {
            if (i == mainPieces)
                receiverIn = enthalpy;
            var place = (i + 0.5) * piece;
            var localAir = pieceAir * (1.2 - 0.4 * place);
            var localC = airC + hotReturn * (0.5 + place) * returned;
            double temperature,
                ua,
                quality;
            if (enthalpy >= line.VapourEnthalpyJPerKg)
            {
                temperature = fluid.AtPressureEnthalpy(pressurePa, enthalpy).TemperatureK - 273.15;
                // A tube that is colder than the dew line condenses although the core of the gas is warm.
                var near = Math.Clamp(1 - (enthalpy - line.VapourEnthalpyJPerKg) / (0.25 * latent), 0, 1);
                ua = film * (GasFilm + (DewFilm - GasFilm) * near);
                quality = 1;
            }
            else if (enthalpy <= line.LiquidEnthalpyJPerKg)
            {
                temperature = fluid.AtPressureEnthalpy(pressurePa, enthalpy).TemperatureK - 273.15;
                ua = film * LiquidFilm;
                quality = 0;
            }
            else
            {
                temperature = line.TemperatureK - 273.15;
                quality = (enthalpy - line.LiquidEnthalpyJPerKg) / latent;
                // Annular film: best at high quality; a nearly full tube passes over into that of liquid.
                var annular = BubbleFilm + (DewFilm - BubbleFilm) * quality * (1.8 - 0.8 * quality);
                ua = film * (LiquidFilm + (annular - LiquidFilm) * Math.Min(1, quality / 0.1));
            }
            var through = 1 / (1 / ua + 1 / airUa);
            var given =
                localAir
                * Psychrometrics.AirJPerKgK
                * (1 - Math.Exp(-through / (localAir * Psychrometrics.AirJPerKgK)))
                * (temperature - localC);
            var next = enthalpy - given / flowKgPerS;
            // A tiny flow would leave colder than the air it meets: it cannot.
            var floor = Floor(fluid, pressurePa, localC, line);
            if (given > 0 && next < floor)
                next = Math.Min(enthalpy, floor);
            if (given < 0 && next > floor)
                next = Math.Max(enthalpy, floor);
            heat += (enthalpy - next) * flowKgPerS;
            var hold = Hold(fluid, line, pressurePa, 0.5 * (enthalpy + next));
            mass += hold.Density * volume;
            liquid += (1 - hold.Void) * line.LiquidDensityKgPerM3 * volume;
            gas += hold.Void * volume;
            enthalpy = next;
        }
        if (mainPieces == Pieces)
            receiverIn = enthalpy;
        return new(
            enthalpy,
            receiverIn,
            heat,
            liquid,
            gas,
            mass,
            airC + heat / (airKgPerS * Psychrometrics.AirJPerKgK)
        );
    }

    private static double Floor(FastFluid fluid, double pressurePa, double airC, in FastSaturation line)
    {
        var airK = airC + 273.15;
        if (Math.Abs(airK - line.TemperatureK) < 0.02)
            return 0.5 * (line.LiquidEnthalpyJPerKg + line.VapourEnthalpyJPerKg);
        return fluid.AtPressureTemperature(pressurePa, airK).EnthalpyJPerKg;
    }

    /// <summary>Density and void of a piece by the slip of Zivi.</summary>
    public static (double Density, double Void) Hold(
        FastFluid fluid,
        in FastSaturation line,
        double pressurePa,
        double enthalpy
    )
    {
        var quality = (enthalpy - line.LiquidEnthalpyJPerKg) / (line.VapourEnthalpyJPerKg - line.LiquidEnthalpyJPerKg);
        if (quality >= 1)
            return (fluid.AtPressureEnthalpy(pressurePa, enthalpy).DensityKgPerM3, 1);
        if (quality <= 0)
            return (line.LiquidDensityKgPerM3, 0);
        var hollow = Zivi(quality, line.VapourDensityKgPerM3 / line.LiquidDensityKgPerM3);
        return (hollow * line.VapourDensityKgPerM3 + (1 - hollow) * line.LiquidDensityKgPerM3, hollow);
    }

    /// <summary>Void fraction from quality and the density ratio of vapour to liquid.</summary>
    public static double Zivi(double quality, double densityRatio) =>
        1 / (1 + (1 - quality) / quality * Math.Pow(densityRatio, 2.0 / 3));
}
