using Tightcold.Properties.Data;

namespace Tightcold.Properties.Flashes;

/// <summary>
/// Density guess above the critical temperature from the Peng-Robinson cubic equation
/// ([peng1976]: Peng and Robinson, Ind. Eng. Chem. Fundam. 15, 59, 1976, constants from memory); good to some percent,
/// which is all a starting guess needs.
/// </summary>
internal sealed class CubicGuess(FluidDefinition fluid)
{
    private readonly double _a =
        0.45724
        * Math.Pow(fluid.Equation.SpecificGasConstant * fluid.CriticalTemperatureK, 2)
        / fluid.CriticalPressurePa;
    private readonly double _b =
        0.07780 * fluid.Equation.SpecificGasConstant * fluid.CriticalTemperatureK / fluid.CriticalPressurePa;
    private readonly double _kappa =
        0.37464 + (1.54226 * fluid.AcentricFactor) - (0.26992 * fluid.AcentricFactor * fluid.AcentricFactor);
    private readonly double _r = fluid.Equation.SpecificGasConstant;
    private readonly double _critical = fluid.CriticalTemperatureK;
    private readonly double _reducing = fluid.Equation.ReducingDensityKgPerM3;

    public double Delta(double temperatureK, double pressurePa)
    {
        var root = 1 + (_kappa * (1 - Math.Sqrt(temperatureK / _critical)));
        var rt = _r * temperatureK;
        var a = _a * root * root * pressurePa / (rt * rt);
        var b = _b * pressurePa / rt;
        // Z^3 - (1 - B) Z^2 + (A - 2B - 3B^2) Z - (AB - B^2 - B^3) = 0: largest real root by Cardano.
        var c2 = b - 1;
        var c1 = a - (2 * b) - (3 * b * b);
        var c0 = (b * b) + (b * b * b) - (a * b);
        var q = ((3 * c1) - (c2 * c2)) / 9;
        var r = ((9 * c2 * c1) - (27 * c0) - (2 * c2 * c2 * c2)) / 54;
        var discriminant = (q * q * q) + (r * r);
        double z;
        if (discriminant >= 0)
        {
            var s = Math.Sqrt(discriminant);
            z = Math.Cbrt(r + s) + Math.Cbrt(r - s) - (c2 / 3);
        }
        else
        {
            z = (2 * Math.Sqrt(-q) * Math.Cos(Math.Acos(r / Math.Sqrt(-q * q * q)) / 3)) - (c2 / 3);
        }

        return pressurePa / (Math.Max(z, b * 1.01) * rt * _reducing);
    }
}
