namespace Tightcold.Properties.Tests.Reference;

/// <summary>
/// Figures of psychrolib 1.1.1, the ASHRAE Fundamentals 2017 ideal-gas psychrometrics, recorded 2026-11 with
/// `npm install psychrolib` in an empty folder and, for each row, SetUnitSystem(SI), GetHumRatioFromRelHum,
/// GetMoistAirEnthalpy, GetTWetBulbFromRelHum, GetTDewPointFromRelHum, GetMoistAirVolume.
/// </summary>
public sealed class PsychrometricTests
{
    // Ideal gas without enhancement factor against a real gas with it: the factor alone is 1.003 to 1.005 on W.
    private const double RatioTolerance = 0.006;
    private const double VolumeTolerance = 0.001;
    private const double EnthalpyToleranceJPerKg = 350;
    private const double WetBulbToleranceK = 0.06;
    private const double DewPointToleranceK = 0.02;

    [Theory]
    [InlineData(25, 0.5, 101325, 0.00988104369, 50321.9588, 17.8894321, 13.8639733, 0.858043264)]
    [InlineData(35, 0.4, 101325, 0.0141316538, 71473.2369, 23.9342022, 19.3846491, 0.892788268)]
    [InlineData(10, 0.8, 101325, 0.00608910268, 25402.1031, 8.29029741, 6.71300549, 0.80998438)]
    [InlineData(45, 0.2, 95000, 0.0128198716, 78405.5222, 24.8771558, 16.8421967, 0.981103143)]
    [InlineData(30, 0.6, 83500, 0.0195729679, 80224.1642, 23.4955252, 21.3879902, 1.07491316)]
    [InlineData(-10, 0.7, 101325, 0.00111872918, -7282.86669, -10.9751931, -13.9568014, 0.746814425)]
    [InlineData(0.5, 0.9, 101325, 0.00352098729, 9312.26372, -0.110699627, -0.835518245, 0.77960749)]
    [InlineData(25, 1.0, 101325, 0.0200811227, 76306.6602, 25, 25, 0.87189534)]
    [InlineData(50, 0.1, 101325, 0.00767402376, 70206.4176, 23.7724247, 10.0847518, 0.926742014)]
    [InlineData(20, 0.3, 70000, 0.00629715028, 36103.4268, 9.39047518, 1.91427186, 1.21426197)]
    public void Moist_air_agrees_with_ideal_gas_psychrometrics_within_what_that_neglects(
        double celsius,
        double humidity,
        double pressurePa,
        double ratio,
        double enthalpy,
        double wetBulb,
        double dewPoint,
        double volume
    )
    {
        var state = HumidAir.FromRelativeHumidity(celsius + 273.15, humidity, pressurePa);
        Assert.InRange(state.HumidityRatio, ratio, ratio * (1 + RatioTolerance));
        Assert.Equal(enthalpy, state.EnthalpyJPerKgDryAir, EnthalpyToleranceJPerKg);
        Assert.Equal(wetBulb, state.WetBulbK - 273.15, WetBulbToleranceK);
        Assert.Equal(dewPoint, state.DewPointK!.Value - 273.15, DewPointToleranceK);
        Assert.Equal(volume, state.VolumeM3PerKgDryAir, VolumeTolerance * volume);
    }

    // GetSatVapPres of the same library: older vapour pressure equations (Hyland and Wexler 1983), 3e-4 from these.
    [Theory]
    [InlineData(-40, 12.845249304105623)]
    [InlineData(-10, 259.9028649521791)]
    [InlineData(0, 611.1535708907679)]
    [InlineData(10, 1227.9952754407796)]
    [InlineData(25, 3169.2164701436277)]
    [InlineData(40, 7383.46000898612)]
    public void Vapour_pressure_of_water_and_ice_agrees_with_the_psychrometric_library(
        double celsius,
        double pascals
    ) => Assert.Equal(pascals, WaterVapour.SaturationPressurePa(celsius + 273.15), 3.5e-4 * pascals);
}
