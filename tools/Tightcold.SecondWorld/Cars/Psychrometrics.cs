namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// Moist air as an ideal mixture with the Magnus formula for saturation (coefficients of Sonntag 1990 over water and
/// over ice, from memory): good to some 0.3 % between -20 and 50 °C, and another law than the product's.
/// </summary>
public static class Psychrometrics
{
    public const double AirJPerKgK = 1006;
    private const double LatentJPerKg = 2.501e6;
    private const double VapourJPerKgK = 1860;

    public static double SaturationPa(double celsius) =>
        celsius >= 0
            ? 611.2 * Math.Exp(17.62 * celsius / (243.12 + celsius))
            : 611.2 * Math.Exp(22.46 * celsius / (272.62 + celsius));

    public static double HumidityRatio(double vapourPa, double totalPa) => 0.622 * vapourPa / (totalPa - vapourPa);

    public static double SaturationRatio(double celsius, double totalPa) =>
        HumidityRatio(Math.Min(SaturationPa(celsius), 0.9 * totalPa), totalPa);

    public static double EnthalpyJPerKg(double celsius, double ratio) =>
        AirJPerKgK * celsius + ratio * (LatentJPerKg + VapourJPerKgK * celsius);

    /// <summary>
    /// Heat that air gives to a surface by unit of air that touches it, J/kg dry air: sensible plus dew.
    /// </summary>
    public static double Given(double airC, double ratio, double surfaceC, double totalPa)
    {
        var dew = Math.Max(0, ratio - SaturationRatio(surfaceC, totalPa));
        return AirJPerKgK * (airC - surfaceC) + dew * LatentJPerKg;
    }
}
