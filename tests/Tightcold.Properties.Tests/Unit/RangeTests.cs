using Tightcold.Numerics;

namespace Tightcold.Properties.Tests.Unit;

/// <summary>What is refused, and that the refusal says which fluid, which input and which range.</summary>
public sealed class RangeTests
{
    private static readonly double[] NotNumbers = [double.NaN, double.PositiveInfinity, double.NegativeInfinity];

    public static TheoryData<string> Fluids => [.. FluidCatalog.Names];

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Not_a_number_is_refused_by_every_call(string name)
    {
        var fluid = FluidCatalog.Get(name);
        foreach (var bad in NotNumbers)
        {
            Refused(name, () => fluid.AtTemperaturePressure(bad, 1e5));
            Refused(name, () => fluid.AtTemperaturePressure(300, bad));
            Refused(name, () => fluid.AtTemperatureDensity(bad, 1));
            Refused(name, () => fluid.AtTemperatureDensity(300, bad));
            Refused(name, () => fluid.AtPressureEnthalpy(bad, 3e5));
            Refused(name, () => fluid.AtPressureEnthalpy(1e5, bad));
            Refused(name, () => fluid.AtPressureEntropy(bad, 1e3));
            Refused(name, () => fluid.AtPressureEntropy(1e5, bad));
            Refused(name, () => fluid.AtTemperatureQuality(bad, 0.5));
            Refused(name, () => fluid.AtTemperatureQuality(300, bad));
            Refused(name, () => fluid.AtPressureQuality(bad, 0.5));
            Refused(name, () => fluid.AtPressureQuality(1e5, bad));
            Refused(name, () => fluid.AtDensityInternalEnergy(bad, 3e5));
            Refused(name, () => fluid.AtDensityInternalEnergy(10, bad));
            Refused(name, () => fluid.SaturationAtTemperature(bad));
            Refused(name, () => fluid.SaturationAtPressure(bad));
            Refused(name, () => fluid.SurfaceTensionNPerM(bad));
            Refused(name, () => fluid.TransportAtTemperatureDensity(bad, 1));
            Refused(name, () => fluid.AtTemperatureDensityOfPhase(300, bad, FluidPhase.Gas, out _));
        }
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void States_outside_the_equations_range_are_refused_with_the_range(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var message = Refused(name, () => fluid.AtTemperaturePressure(fluid.MaxTemperatureK + 0.1, 1e5)).Message;
        Assert.Contains("temperatureK", message, StringComparison.Ordinal);
        Assert.Contains("K", message, StringComparison.Ordinal);
        Refused(name, () => fluid.AtTemperaturePressure(fluid.MinTemperatureK - 0.1, 1e5));
        Refused(name, () => fluid.AtTemperaturePressure(300, fluid.MaxPressurePa * 1.001));
        Refused(name, () => fluid.AtTemperaturePressure(300, 0));
        Refused(name, () => fluid.AtTemperaturePressure(300, -1e5));
        Refused(name, () => fluid.AtTemperatureDensity(300, 0));
        Refused(name, () => fluid.AtTemperatureDensity(300, -1));
        Refused(name, () => fluid.AtTemperatureDensity(300, 1e5));
        Refused(name, () => fluid.AtPressureEnthalpy(1e6, 1e8));
        Refused(name, () => fluid.AtPressureEnthalpy(1e6, -1e7));
        Refused(name, () => fluid.AtPressureEntropy(1e6, 1e6));
        Refused(name, () => fluid.AtPressureEntropy(1e6, -1e5));
        Refused(name, () => fluid.AtDensityInternalEnergy(10, 1e9));
        Refused(name, () => fluid.AtDensityInternalEnergy(10, -1e9));
        Refused(name, () => fluid.SaturationAtTemperature(fluid.CriticalTemperatureK + 0.01));
        Refused(name, () => fluid.SaturationAtPressure(fluid.CriticalPressurePa * 1.0001));
        Refused(name, () => fluid.AtTemperatureQuality(fluid.MinTemperatureK + 1, -0.01));
        Refused(name, () => fluid.AtTemperatureQuality(fluid.MinTemperatureK + 1, 1.01));
    }

    [Fact]
    public void A_refusal_names_fluid_input_value_and_range()
    {
        var refused = Assert.Throws<FluidRangeException>(() =>
            FluidCatalog.Get("R1234yf").AtTemperaturePressure(500, 1e5)
        );
        Assert.Equal("R1234yf", refused.Fluid);
        Assert.Equal("temperatureK", refused.ParamName);
        Assert.Equal(500, refused.Value);
        Assert.Equal("121.6 to 410 K", refused.ValidRange);
    }

    [Fact]
    public void A_liquid_beyond_the_pressure_limit_is_refused_by_its_density()
    {
        var refused = Assert.Throws<FluidRangeException>(() =>
            FluidCatalog.Get("R134a").AtTemperatureDensity(400, 1500)
        );
        Assert.Equal("densityKgPerM3", refused.ParamName);
    }

    [Fact]
    public void Gas_below_the_triple_point_pressure_is_served_by_pressure_and_enthalpy()
    {
        var fluid = FluidCatalog.Get("R744");
        var state = fluid.AtTemperaturePressure(250, 1e5);
        var back = fluid.AtPressureEnthalpy(1e5, state.EnthalpyJPerKg);
        Assert.Equal(250, back.TemperatureK, 1e-7);
        Assert.Equal(FluidPhase.Gas, back.Phase);
    }

    [Fact]
    public void Transcritical_carbon_dioxide_names_its_phases()
    {
        var fluid = FluidCatalog.Get("R744");
        Assert.Equal(FluidPhase.Supercritical, fluid.AtTemperaturePressure(320, 10e6).Phase);
        Assert.Equal(FluidPhase.Liquid, fluid.AtTemperaturePressure(300, 10e6).Phase);
        Assert.Equal(FluidPhase.Gas, fluid.AtTemperaturePressure(320, 7e6).Phase);
        Assert.Equal(FluidPhase.Gas, fluid.AtTemperaturePressure(300, 6e6).Phase);
        Assert.Equal(FluidPhase.TwoPhase, fluid.AtTemperatureQuality(300, 0).Phase);
        Assert.NotNull(fluid.AtTemperatureQuality(300, 0).CpJPerKgK);
        Assert.NotNull(fluid.AtTemperatureQuality(300, 1).SpeedOfSoundMPerS);
    }

    [Fact]
    public void Non_convergence_comes_as_a_value_from_the_Try_forms()
    {
        var fluid = FluidCatalog.Get("R134a");
        var found = Assert.IsType<Solved<FluidState>.Converged>(fluid.TryAtPressureEnthalpy(1e6, 430e3));
        Assert.Equal(fluid.AtPressureEnthalpy(1e6, 430e3), found.Value);
        Assert.IsType<Solved<FluidState>.Converged>(fluid.TryAtPressureEntropy(1e6, 1750));
        var stalled = new FlashDidNotConvergeException("R134a", "p = 1, h = 2", 0.5, "it stood still");
        Assert.Contains("R134a", stalled.Message, StringComparison.Ordinal);
        Assert.Contains("it stood still", stalled.Message, StringComparison.Ordinal);
        Assert.Equal(("R134a", 0.5, "it stood still"), (stalled.Fluid, stalled.Residual, stalled.Reason));
    }

    [Fact]
    public void Transport_inside_the_dome_is_absent_and_at_its_edges_present()
    {
        var fluid = FluidCatalog.Get("R134a");
        var wet = fluid.AtTemperatureQuality(300, 0.5);
        Assert.Equal(default, fluid.Transport(wet));
        Assert.Equal(default, fluid.TransportAtTemperatureDensity(300, wet.DensityKgPerM3));
        var liquid = fluid.Transport(fluid.AtTemperatureQuality(300, 0));
        // R-134a liquid at 27 degC: viscosity about 0.19 mPa s, conductivity about 0.080 W/(m K) (handbook, from
        // memory).
        Assert.Equal(0.19e-3, liquid.ViscosityPaS!.Value, 0.01e-3);
        Assert.Equal(0.080, liquid.ConductivityWPerMK!.Value, 0.003);
    }

    [Fact]
    public void Water_vapour_pressure_refuses_what_it_does_not_know_and_inverts_where_it_does()
    {
        foreach (var bad in (double[])[double.NaN, 20, 700, -5])
            Assert.Contains(
                "50 to 647.096 K",
                Refused("Water", () => WaterVapour.SaturationPressurePa(bad)).Message,
                StringComparison.Ordinal
            );
        foreach (var bad in (double[])[double.NaN, 0, -1, 3e7])
            Assert.Contains(
                "22.064 MPa",
                Refused("Water", () => WaterVapour.SaturationTemperatureK(bad)).Message,
                StringComparison.Ordinal
            );
        for (var t = 60.0; t < 647; t += 7.3)
            Assert.Equal(t, WaterVapour.SaturationTemperatureK(WaterVapour.SaturationPressurePa(t)), 1e-11 * t);
        // Between the triple pressures of the two formulations, 611.6548 and 611.657 Pa, lies the triple point.
        Assert.Equal(273.16, WaterVapour.SaturationTemperatureK(611.654775), 1e-4);
        Assert.Equal(273.16, WaterVapour.SaturationTemperatureK(611.6547), 1e-4);
        // At the triple point itself it is the liquid's (IAPWS-95: 611.6548 Pa).
        Assert.Equal(611.6548, WaterVapour.SaturationPressurePa(273.16), 1e-4);
    }

    [Fact]
    public void Water_vapour_pressure_serves_the_ends_of_its_range()
    {
        var water = FluidCatalog.Get("Water");
        // IAPWS R14-08 gives 1.9e-40 Pa for ice at 50 K.
        Assert.Equal(1.9e-40, WaterVapour.SaturationPressurePa(50), 0.1e-40);
        Assert.Equal(
            water.CriticalPressurePa,
            WaterVapour.SaturationPressurePa(water.CriticalTemperatureK),
            1e-6 * water.CriticalPressurePa
        );
        Assert.Equal(1e-39, WaterVapour.SaturationPressurePa(WaterVapour.SaturationTemperatureK(1e-39)), 1e-9 * 1e-39);
        Assert.Equal(
            water.CriticalTemperatureK,
            WaterVapour.SaturationTemperatureK(water.CriticalPressurePa),
            1e-6 * water.CriticalTemperatureK
        );
    }

    private static FluidRangeException Refused(string name, Func<object?> call)
    {
        var refused = Assert.Throws<FluidRangeException>(() =>
        {
            call();
        });
        Assert.Equal(name, refused.Fluid);
        Assert.Contains(name, refused.Message, StringComparison.Ordinal);
        Assert.NotEmpty(refused.ValidRange);
        return refused;
    }
}
