using Tightcold.Numerics;
using Tightcold.Numerics.Roots;

namespace Tightcold.Properties.MoistAir;

/// <summary>
/// The thermodynamic wet bulb: the temperature at which water (above 273.16 K) or ice evaporating into the air
/// saturates it adiabatically: h(T, W) = h_s(Twb) + (W - W_s(Twb)) h_w(Twb).
/// </summary>
internal static class WetBulb
{
    private const double ToleranceK = 1e-10;

    /// <summary>Wet bulb from the enthalpy and humidity ratio of the air.</summary>
    /// <param name="enthalpy">J/kg dry air.</param>
    /// <param name="humidityRatio">kg/kg dry air.</param>
    /// <param name="pressurePa">Barometric pressure.</param>
    /// <param name="lowK">A temperature not above the answer: the dew point, or the lowest served.</param>
    /// <param name="highK">The dry bulb.</param>
    public static Solved<double> Solve(
        double enthalpy,
        double humidityRatio,
        double pressurePa,
        double lowK,
        double highK
    )
    {
        var balance = new Balance(enthalpy, humidityRatio, pressurePa);
        var high = Math.Min(highK, BoilingK(pressurePa));
        var low = Math.Min(lowK, high);
        var wet = double.BitIncrement(HumidAirFormulation.IcePointK);
        if (high > wet)
        {
            // Between ice and water the balance jumps down; where both sides offer a root the wet one is taken.
            if (low > wet || balance.Evaluate(wet) <= 0)
                return Bracket(balance, Math.Max(low, wet), high);
            high = HumidAirFormulation.IcePointK;
        }

        return Bracket(balance, low, high);
    }

    /// <summary>Right-hand side of the balance that does not hold the air's own state: (h_s - W_s h_w, h_w).</summary>
    public static (double Offset, double WaterEnthalpy) Saturated(double wetBulbK, double pressurePa)
    {
        var psi = HumidAirFormulation.SaturatedMoleFraction(wetBulbK, pressurePa);
        var ratio = HumidAirFormulation.HumidityRatio(psi);
        var enthalpy =
            HumidAirFormulation.MolarEnthalpy(wetBulbK, pressurePa, psi) * HumidAirFormulation.MolesPerKgDryAir(psi);
        var water = HumidAirFormulation.CondensedEnthalpyJPerKg(wetBulbK, pressurePa);
        return (enthalpy - (ratio * water), water);
    }

    /// <summary>Just below the temperature at which water boils at the pressure, where saturated air would be all
    /// vapour.</summary>
    public static double BoilingK(double pressurePa) => WaterVapour.SaturationTemperatureK(pressurePa) - 0.05;

    private static Solved<double> Bracket(in Balance balance, double low, double high)
    {
        // At saturation both ends meet the answer within rounding: widen by a hair.
        if (balance.Evaluate(high) <= 0)
            return new Solved<double>.Converged(high, 0, 0);
        if (balance.Evaluate(low) >= 0)
            return new Solved<double>.Converged(low, 0, 0);
        return BracketedRoot.Find(balance, low, high, ToleranceK);
    }

    private readonly struct Balance(double enthalpy, double humidityRatio, double pressurePa) : IScalarFunction
    {
        public double Evaluate(double x)
        {
            var (offset, water) = Saturated(x, pressurePa);
            return offset + (humidityRatio * water) - enthalpy;
        }
    }
}
