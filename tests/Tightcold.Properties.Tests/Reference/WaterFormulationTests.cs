using Tightcold.Properties.MoistAir;

namespace Tightcold.Properties.Tests.Reference;

/// <summary>Check values that IAPWS prints with its formulations; written here from memory of the releases named, so a
/// slip of a digit would show as a failure.</summary>
public sealed class WaterFormulationTests
{
    private static readonly Fluid Water = FluidCatalog.Get("Water");

    // R6-95(2018), table 7: T, rho, p in MPa, cv in kJ/(kg K), w in m/s, s in kJ/(kg K), nine digits. The fluid file
    // holds the gas constant over molar mass of the release (0.46151805 kJ/(kg K)) to ten digits.
    [Theory]
    [InlineData(300, 996.5560, 0.0992418352, 4.13018112, 1501.51914, 0.393062643)]
    [InlineData(300, 1005.308, 20.0022515, 4.06798347, 1534.92501, 0.387405401)]
    [InlineData(300, 1188.202, 700.004704, 3.46135580, 2443.57992, 0.132609616)]
    [InlineData(500, 0.4350000, 0.0999679423, 1.50817541, 548.314253, 7.94488271)]
    [InlineData(500, 4.532000, 0.999938125, 1.66991025, 535.739001, 6.82502725)]
    [InlineData(500, 838.0250, 10.0003858, 3.22106219, 1271.28441, 2.56690919)]
    [InlineData(500, 1084.564, 700.000405, 3.07437693, 2412.00877, 2.03237509)]
    [InlineData(647, 358.0000, 22.0384756, 6.18315728, 252.145078, 4.32092307)]
    [InlineData(900, 0.2410000, 0.100062559, 1.75890657, 724.027147, 9.16653194)]
    [InlineData(900, 52.61500, 20.0000690, 1.93510526, 698.445674, 6.59070225)]
    [InlineData(900, 870.7690, 700.000006, 2.66422350, 2019.33608, 4.17223802)]
    public void Water_matches_the_single_phase_check_table_of_the_scientific_formulation(
        double t,
        double rho,
        double p,
        double cv,
        double w,
        double s
    )
    {
        var state = Water.AtTemperatureDensity(t, rho);
        // Table digits, and for a liquid the stiffness that turns the last digit of R into pressure.
        Assert.Equal(p, state.PressurePa / 1e6, 2e-7 * p);
        Assert.Equal(cv, state.CvJPerKgK!.Value / 1e3, 1e-8 * cv);
        Assert.Equal(w, state.SpeedOfSoundMPerS!.Value, 1e-8 * w);
        Assert.Equal(s, state.EntropyJPerKgK / 1e3, 1e-8 * s);
    }

    // R6-95(2018), table 8.
    [Theory]
    [InlineData(275, 0.698451167e-3, 999.887406, 0.00550664919, 7.75972202, 2504.28995, 0.0283094670, 9.10660121)]
    [InlineData(450, 0.932203564, 890.341250, 4.81200360, 749.161585, 2774.41078, 2.10865845, 6.60921221)]
    [InlineData(625, 16.9082693, 567.090385, 118.290280, 1686.26976, 2550.71625, 3.80194683, 5.18506121)]
    public void Water_matches_the_saturation_check_table_of_the_scientific_formulation(
        double t,
        double p,
        double rhoL,
        double rhoV,
        double hL,
        double hV,
        double sL,
        double sV
    )
    {
        var state = Water.SaturationAtTemperature(t);
        const double Tolerance = 1e-8;
        Assert.Equal(p, state.PressurePa / 1e6, Tolerance * p);
        Assert.Equal(rhoL, state.LiquidDensityKgPerM3, Tolerance * rhoL);
        Assert.Equal(rhoV, state.VapourDensityKgPerM3, Tolerance * rhoV);
        Assert.Equal(hL, state.LiquidEnthalpyJPerKg / 1e3, 1e-7 * Math.Abs(hL));
        Assert.Equal(hV, state.VapourEnthalpyJPerKg / 1e3, Tolerance * hV);
        Assert.Equal(sL, state.LiquidEntropyJPerKgK / 1e3, 1e-7 * sL);
        Assert.Equal(sV, state.VapourEntropyJPerKgK / 1e3, Tolerance * sV);
    }

    // R12-08(2008), table 4: without the critical enhancement, which is 1 within 1e-6 at these points.
    [Theory]
    [InlineData(298.15, 998, 889.735100)]
    [InlineData(298.15, 1200, 1437.649467)]
    [InlineData(373.15, 1000, 307.883622)]
    [InlineData(433.15, 1, 14.538324)]
    [InlineData(433.15, 1000, 217.685358)]
    [InlineData(873.15, 1, 32.619287)]
    [InlineData(873.15, 600, 77.430195)]
    [InlineData(1173.15, 100, 47.640433)]
    public void Water_viscosity_matches_the_check_table(double t, double rho, double microPascalSeconds)
    {
        var transport = Water.AtTemperatureDensityOfPhase(t, rho, FluidPhase.Liquid, out var found) is var _
            ? found
            : default;
        Assert.Equal(microPascalSeconds, transport.ViscosityPaS!.Value * 1e6, 1e-5 * microPascalSeconds);
    }

    // R12-08(2008), table 5: with the critical enhancement.
    [Theory]
    [InlineData(647.35, 122, 25.520677)]
    [InlineData(647.35, 222, 31.337589)]
    [InlineData(647.35, 272, 36.228143)]
    [InlineData(647.35, 322, 42.961579)]
    [InlineData(647.35, 372, 45.688204)]
    [InlineData(647.35, 422, 49.436256)]
    public void Water_viscosity_near_the_critical_point_matches_the_check_table(
        double t,
        double rho,
        double microPascalSeconds
    )
    {
        Water.AtTemperatureDensityOfPhase(t, rho, FluidPhase.Supercritical, out var transport);
        Assert.Equal(microPascalSeconds, transport.ViscosityPaS!.Value * 1e6, 2e-7 * microPascalSeconds);
    }

    // R15-11(2011), table 4: without the critical enhancement; at these points it is small but not nothing.
    [Theory]
    [InlineData(298.15, 998, 607.712868, 2e-3)]
    [InlineData(298.15, 1200, 799.038144, 2e-3)]
    public void Water_conductivity_lies_by_the_check_table(double t, double rho, double milliwatts, double enhancement)
    {
        Water.AtTemperatureDensityOfPhase(t, rho, FluidPhase.Liquid, out var transport);
        Assert.InRange(
            transport.ConductivityWPerMK!.Value * 1e3,
            milliwatts * (1 - 1e-8),
            milliwatts * (1 + enhancement)
        );
    }

    // R10-06(2009), table 6: volume, enthalpy and isothermal compressibility of ice at the normal melting point.
    [Fact]
    public void Ice_matches_the_check_table()
    {
        Assert.Equal(0.109084388214e-2, IceEquation.VolumeM3PerKg(273.152519, 101325), 1e-14);
        Assert.Equal(-0.333354873637e6, IceEquation.EnthalpyJPerKg(273.152519, 101325), 1e-4);
        Assert.Equal(0.117785291765e-9, IceEquation.CompressibilityPerPa(273.152519, 101325), 1e-20);
    }

    // R14-08(2011), text under eq. 6.
    [Fact]
    public void Ice_has_the_printed_sublimation_pressure_at_230_K() =>
        Assert.Equal(8.94735, WaterVapour.SaturationPressurePa(230), 5e-6);

    // R7-97(2012), table 35.
    [Theory]
    [InlineData(300, 0.353658941e-2)]
    [InlineData(500, 0.263889776e1)]
    [InlineData(600, 0.123443146e2)]
    public void The_industrial_saturation_pressure_matches_its_check_table(double t, double megapascals) =>
        Assert.Equal(megapascals, IndustrialSaturation.PressurePa(t) / 1e6, 1e-8 * megapascals);
}
