using Tightcold.Numerics.Interpolation;
using Tightcold.Properties;

namespace Tightcold.Procedures.Running;

/// <summary>Where a healthy car's gauges stand at an outside temperature, as saturation temperatures so that it
/// carries over from R-134a to R-1234yf. Wide on purpose: it covers many cars at idle to about 1500 rpm.</summary>
/// <param name="LowFromK">Low side, lower end.</param>
/// <param name="LowToK">Low side, upper end.</param>
/// <param name="HighFromK">High side, lower end.</param>
/// <param name="HighToK">High side, upper end.</param>
public readonly record struct ExpectedBand(double LowFromK, double LowToK, double HighFromK, double HighToK)
{
    public const double ColdestAmbientK = 273.15 + 21;
    public const double HottestAmbientK = 273.15 + 43.5;

    private const double PsiPa = 6894.757;
    private const double SeaLevelPa = 101_325;

    // Outside air °C, low side from-to, high side from-to, kPa gauge at sea level, R-134a.
    // One car's published service-manual test table, model year 2010, idle, doors closed, 50 to 70 % humidity.
    private static readonly double[][] ServiceManual = Columns([
        [25, 171, 209, 1204, 1471],
        [30, 196, 240, 1300, 1590],
        [35, 229, 280, 1500, 1820],
        [40, 292, 357, 1870, 2285],
    ]);

    // Common practice, no source: the trade's table in psig at 70, 80, 90, 100, 110 °F and about 1500 rpm.
    private static readonly double[][] TradeTable = Columns([
        [21.1, 35 * PsiPa / 1e3, 40 * PsiPa / 1e3, 140 * PsiPa / 1e3, 175 * PsiPa / 1e3],
        [26.7, 35 * PsiPa / 1e3, 45 * PsiPa / 1e3, 170 * PsiPa / 1e3, 210 * PsiPa / 1e3],
        [32.2, 40 * PsiPa / 1e3, 50 * PsiPa / 1e3, 200 * PsiPa / 1e3, 250 * PsiPa / 1e3],
        [37.8, 45 * PsiPa / 1e3, 55 * PsiPa / 1e3, 250 * PsiPa / 1e3, 325 * PsiPa / 1e3],
        [43.3, 50 * PsiPa / 1e3, 60 * PsiPa / 1e3, 300 * PsiPa / 1e3, 350 * PsiPa / 1e3],
    ]);

    // Common practice, no source: a variable compressor holds its low side at 25 to 30 psig in any weather.
    private static readonly double[] VariableLowKpa = [170, 210];

    /// <summary>The band at <paramref name="ambientK"/>, 21 to 43.5 °C; null outside, where neither table
    /// speaks.</summary>
    public static ExpectedBand? At(double ambientK, bool variableCompressor)
    {
        if (!(ambientK >= ColdestAmbientK && ambientK <= HottestAmbientK))
            return null;
        var celsius = ambientK - 273.15;
        var manual = Interpolate(ServiceManual, celsius);
        var trade = Interpolate(TradeTable, celsius);
        double lowFrom = Math.Min(manual[1], trade[1]),
            lowTo = Math.Max(manual[2], trade[2]);
        if (variableCompressor)
        {
            lowFrom = Math.Min(lowFrom, VariableLowKpa[0]);
            lowTo = Math.Max(lowTo, VariableLowKpa[1]);
        }
        return new(
            Saturation(lowFrom),
            Saturation(lowTo),
            Saturation(Math.Min(manual[3], trade[3])),
            Saturation(Math.Max(manual[4], trade[4]))
        );
    }

    private static double Saturation(double kiloPascalGauge) =>
        FluidCatalog.Get("R134a").SaturationAtPressure(kiloPascalGauge * 1e3 + SeaLevelPa).TemperatureK;

    /// <summary>Linear between rows; beyond the ends of a table its end row moves along with the other table only
    /// through the union, so the end row is held.</summary>
    private static double[] Interpolate(double[][] table, double celsius)
    {
        var place = StraightLines.Place(table[0], celsius);
        return Array.ConvertAll(table, column => StraightLines.At(column, place));
    }

    private static double[][] Columns(double[][] rows) =>
        [.. rows[0].Select((_, column) => Array.ConvertAll(rows, row => row[column]))];
}
