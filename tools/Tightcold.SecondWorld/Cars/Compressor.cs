using Tightcold.Properties;

namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// Piston compressor by its clearance volume: re-expansion by a polytrope, throttling at the reeds, and gas that blows
/// by from the discharge through an area. No map, no fitted polynomial (textbook law, e.g. Stoecker and Jones 1982, ch.
/// 11, from memory). Worn down to nothing is the same law with a larger area.
/// </summary>
public static class Compressor
{
    private const double Polytrope = 1.06;
    private const double Isentrope = 1.11;
    private const double WarmingShare = 0.95;
    private const double ShellWPerK = 4;
    private const double BayAboveAmbientK = 25;
    private const double HottestK = 425;
    private const double GasJPerKgK = 1050;

    public readonly record struct Result(double FlowKgPerS, double WorkW, double DischargeJPerKg, double ShellLossW);

    /// <param name="fluid">The refrigerant.</param>
    /// <param name="car">The car: displacement, clearance, blow-by.</param>
    /// <param name="extraBlowByM2">Area of wear, m².</param>
    /// <param name="stroke">Stroke, 0 to 1.</param>
    /// <param name="rpm">Engine speed, 1/min.</param>
    /// <param name="suctionPa">Absolute, at the port.</param>
    /// <param name="suctionJPerKg">Enthalpy of what comes in.</param>
    /// <param name="dischargePa">Absolute, at the port.</param>
    /// <param name="ambientC">Of the day; the bay is warmer.</param>
    public static Result Pump(
        FastFluid fluid,
        CarBuild car,
        double extraBlowByM2,
        double stroke,
        double rpm,
        double suctionPa,
        double suctionJPerKg,
        double dischargePa,
        double ambientC
    )
    {
        // Below the tables' lowest pressure the gas is thinned as an ideal one at that end.
        var tablePa = Math.Max(suctionPa, 1.01 * fluid.SaturationPressurePa(fluid.MinTemperatureK + 0.01));
        var suction = fluid.AtPressureEnthalpy(tablePa, suctionJPerKg);
        var turns = rpm * car.PulleyRatio / 60;
        var speed = turns / 50;
        var inside = suctionPa * (1 - 0.035 * speed);
        var outside = dischargePa * (1 + 0.03 * speed);
        var ratio = Math.Max(1, outside / inside);
        var clearance = car.ClearanceRatio / Math.Sqrt(stroke);
        var filling = Math.Max(0, 1 - clearance * (Math.Pow(ratio, 1 / Polytrope) - 1)) * WarmingShare;
        // Reeds close late at speed.
        filling *= 1 - 0.08 * speed;
        var swept = suction.DensityKgPerM3 * (inside / tablePa) * car.DisplacementM3 * stroke * turns * filling;
        var back = BlowBy(fluid, car.BlowByAreaM2 + extraBlowByM2, dischargePa, suctionPa);
        var flow = Math.Max(2e-6, swept - back);

        // Work of a polytrope from the state in the cylinder: p1 v1 n/(n - 1) (r^((n - 1)/n) - 1).
        const double Rise = (Isentrope - 1) / Isentrope;
        var ideal = tablePa / suction.DensityKgPerM3 / Rise * (Math.Pow(ratio, Rise) - 1);
        var share = car.IsentropicShare * (1 - 0.12 * speed) * (0.75 + 0.25 * Math.Sqrt(stroke));
        var work = swept * Math.Max(0, ideal) / share;
        // What the gas takes up and what the shell loses, together: Newton on the enthalpy, bounded.
        var bay = ambientC + 273.15 + BayAboveAmbientK;
        var hottest = fluid
            .AtPressureTemperature(dischargePa, Math.Min(HottestK, fluid.MaxTemperatureK - 2))
            .EnthalpyJPerKg;
        var discharge = Math.Min(hottest, suctionJPerKg + 40e3);
        for (var pass = 0; pass < 3; pass++)
        {
            var shell = ShellWPerK * (fluid.AtPressureEnthalpy(dischargePa, discharge).TemperatureK - bay);
            var left = work - flow * (discharge - suctionJPerKg) - shell;
            discharge = Math.Clamp(
                discharge + left / (flow + ShellWPerK / GasJPerKgK),
                Math.Min(suctionJPerKg, hottest),
                hottest
            );
        }
        return new(flow, work, discharge, work - flow * (discharge - suctionJPerKg));
    }

    /// <summary>Gas through a worn gap: choked or not, whichever is less, kg/s.</summary>
    private static double BlowBy(FastFluid fluid, double areaM2, double dischargePa, double suctionPa)
    {
        var density = fluid
            .AtPressureTemperature(
                dischargePa,
                Math.Max(
                    fluid.SaturationTemperatureK(Math.Min(dischargePa, 0.97 * fluid.Fluid.CriticalPressurePa)) + 25,
                    330
                )
            )
            .DensityKgPerM3;
        var choked = 0.63 * Math.Sqrt(dischargePa * density);
        var free = Math.Sqrt(2 * density * Math.Max(0, dischargePa - suctionPa));
        return areaM2 * Math.Min(choked, free);
    }
}
