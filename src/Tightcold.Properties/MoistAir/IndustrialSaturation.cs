namespace Tightcold.Properties.MoistAir;

/// <summary>
/// Saturation pressure of water by the industrial formulation IAPWS R7-97(2012) [iapwsR797], region 4: what the
/// humid-air formulation defines relative humidity with. It lies within 2e-5 of the scientific equation used elsewhere.
/// </summary>
internal static class IndustrialSaturation
{
    private const double N1 = 0.11670521452767e4;
    private const double N2 = -0.72421316703206e6;
    private const double N3 = -0.17073846940092e2;
    private const double N4 = 0.12020824702470e5;
    private const double N5 = -0.32325550322333e7;
    private const double N6 = 0.14915108613530e2;
    private const double N7 = -0.48232657361591e4;
    private const double N8 = 0.40511340542057e6;
    private const double N9 = -0.23855557567849;
    private const double N10 = 0.65017534844798e3;

    /// <summary>Eq. 30, 273.15 K to the critical point, Pa.</summary>
    public static double PressurePa(double temperatureK)
    {
        var theta = temperatureK + (N9 / (temperatureK - N10));
        var a = (((theta + N1) * theta) + N2);
        var b = (((N3 * theta) + N4) * theta) + N5;
        var c = (((N6 * theta) + N7) * theta) + N8;
        var quotient = 2 * c / (-b + Math.Sqrt((b * b) - (4 * a * c)));
        quotient *= quotient;
        return 1e6 * quotient * quotient;
    }
}
