namespace Tightcold.Procedures.Cold;

/// <summary>Moist air in short formulas, for what is evaluated some tens of thousands of times for one
/// answer.</summary>
internal static class DampAir
{
    /// <summary>J per kg dry air, zero at 0 °C: 1006·t + W·(2 501 000 + 1860·t); ASHRAE Fundamentals ch. 1, ideal-gas
    /// form.</summary>
    public static double Enthalpy(double temperatureK, double humidityRatio) =>
        1006 * (temperatureK - 273.15) + humidityRatio * (2_501_000 + 1860 * (temperatureK - 273.15));

    /// <summary>W = 0.621945·pw/(p − pw) at saturation; ASHRAE Fundamentals ch. 1.</summary>
    public static double SaturatedRatio(double temperatureK, double barometerPa)
    {
        // Magnus form over water, within 0.1 % of the steam tables from 0 to 50 °C: the coil is solved some forty
        // thousand times for one band. Source: WMO Guide to Instruments, constants 611.2, 17.62, 243.12.
        var celsius = temperatureK - 273.15;
        var vapourPa = 611.2 * Math.Exp(17.62 * celsius / (celsius + 243.12));
        return 0.621945 * vapourPa / Math.Max(1, barometerPa - vapourPa);
    }
}
