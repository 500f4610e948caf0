using System.Numerics;

namespace Tightcold.Properties.MoistAir;

/// <summary>
/// Ordinary ice by the Gibbs energy of IAPWS R10-06(2009) [iapwsR1006] (Feistel and Wagner 2006), and its sublimation
/// pressure by R14-08 [iapwsR1408] (Wagner, Riethmann, Feistel, Harvey 2011). T in K, p in Pa, per kilogram.
/// </summary>
internal static class IceEquation
{
    private const double TripleTemperatureK = 273.16;
    private const double TriplePressurePa = 611.657;
    private const double NormalPressurePa = 101325;
    private const double G00 = -0.632020233335886e6;
    private const double G01 = 0.655022213658955;
    private const double G02 = -0.189369929326131e-7;
    private const double G03 = 0.339746123271053e-14;
    private const double G04 = -0.556464869058991e-21;
    private const double S0 = -0.332733756492168e4;

    private static readonly Complex T1 = new(0.368017112855051e-1, 0.510878114959572e-1);
    private static readonly Complex R1 = new(0.447050716285388e2, 0.656876847463481e2);
    private static readonly Complex T2 = new(0.337315741065416, 0.335449415919309);
    private static readonly Complex R20 = new(-0.725974574329220e2, -0.781008427112870e2);
    private static readonly Complex R21 = new(-0.557107698030123e-4, 0.464578634580806e-4);
    private static readonly Complex R22 = new(0.234801409215913e-10, -0.285651142904972e-10);

    /// <summary>Sublimation pressure, 50 K to 273.16 K (R14-08, eq. 6).</summary>
    public static double SublimationPressurePa(double temperatureK)
    {
        var theta = temperatureK / TripleTemperatureK;
        var sum =
            (-0.212144006e2 * Math.Pow(theta, 0.333333333e-2))
            + (0.273203819e2 * Math.Pow(theta, 0.120666667e1))
            - (0.610598130e1 * Math.Pow(theta, 0.170333333e1));
        return TriplePressurePa * Math.Exp(sum / theta);
    }

    /// <summary>Specific volume dg/dp, m3/kg.</summary>
    public static double VolumeM3PerKg(double temperatureK, double pressurePa)
    {
        var theta = temperatureK / TripleTemperatureK;
        var y = (pressurePa - NormalPressurePa) / TriplePressurePa;
        var g0 = (G01 + (y * ((2 * G02) + (y * ((3 * G03) + (4 * y * G04)))))) / TriplePressurePa;
        var r2 = (R21 + (2 * y * R22)) / TriplePressurePa;
        return g0 + (TripleTemperatureK * (r2 * Shape(T2, theta)).Real);
    }

    /// <summary>Isothermal compressibility, 1/Pa.</summary>
    public static double CompressibilityPerPa(double temperatureK, double pressurePa)
    {
        var theta = temperatureK / TripleTemperatureK;
        var y = (pressurePa - NormalPressurePa) / TriplePressurePa;
        var square = TriplePressurePa * TriplePressurePa;
        var g0 = ((2 * G02) + (y * ((6 * G03) + (12 * y * G04)))) / square;
        var second = g0 + (TripleTemperatureK * (2 * R22 / square * Shape(T2, theta)).Real);
        return -second / VolumeM3PerKg(temperatureK, pressurePa);
    }

    /// <summary>Enthalpy g - T dg/dT, J/kg, on the scale of liquid water at the triple point.</summary>
    public static double EnthalpyJPerKg(double temperatureK, double pressurePa)
    {
        var theta = temperatureK / TripleTemperatureK;
        var y = (pressurePa - NormalPressurePa) / TriplePressurePa;
        var g0 = G00 + (y * (G01 + (y * (G02 + (y * (G03 + (y * G04)))))));
        var r2 = R20 + (y * (R21 + (y * R22)));
        var g =
            g0
            - (S0 * TripleTemperatureK * theta)
            + (TripleTemperatureK * ((R1 * Shape(T1, theta)) + (r2 * Shape(T2, theta))).Real);
        var byT = -S0 + ((R1 * Slope(T1, theta)) + (r2 * Slope(T2, theta))).Real;
        return g - (temperatureK * byT);
    }

    private static Complex Shape(Complex t, double theta) =>
        ((t - theta) * Complex.Log(t - theta))
        + ((t + theta) * Complex.Log(t + theta))
        - (2 * t * Complex.Log(t))
        - (theta * theta / t);

    private static Complex Slope(Complex t, double theta) =>
        Complex.Log(t + theta) - Complex.Log(t - theta) - (2 * theta / t);
}
