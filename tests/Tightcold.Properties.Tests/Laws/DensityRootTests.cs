using CsCheck;
using Tightcold.Properties.Flashes;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Tests.Laws;

/// <summary>The density of a phase at a temperature and a pressure: next to the critical point, where isotherms lie
/// flat, and from bad guesses.</summary>
public sealed class DensityRootTests
{
    private const double Unbounded = double.PositiveInfinity;

    public static TheoryData<string> Fluids => [.. FluidCatalog.Names];

    [Theory]
    [MemberData(nameof(Fluids))]
    public void A_state_next_to_the_critical_point_has_the_pressure_that_was_asked(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var offset = Gen.Select(Gen.Double[-8, -1], Gen.Bool)
            .Select((power, above) => (above ? 1 : -1) * Math.Pow(10, power));
        Gen.Select(offset, offset)
            .Sample(
                (dt, dp) =>
                {
                    var (t, p) = ((1 + dt) * fluid.CriticalTemperatureK, (1 + dp) * fluid.CriticalPressurePa);
                    if (t < fluid.MinTemperatureK)
                        return;
                    var isotherm = IsothermOf(fluid, t);
                    var delta = fluid.AtTemperaturePressure(t, p).DensityKgPerM3 / isotherm.ReducingDensityKgPerM3;
                    var found = isotherm.Density(delta);
                    // Below the critical temperature and within a millionth of it the series decide where a phase ends,
                    // to 1e-9.
                    var tolerance = dt is < 0 and > -1e-6 ? 2e-9 : 1e-12;
                    Assert.Equal(
                        p,
                        isotherm.PressurePa(delta, found),
                        tolerance * Math.Max(p, isotherm.PressureScalePa * delta * found.Stiffness)
                    );
                    Assert.True(found.Stiffness > -1e-9);
                },
                iter: 1000
            );
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Above_the_critical_temperature_any_guess_leads_to_the_one_density(string name)
    {
        var fluid = FluidCatalog.Get(name);
        Gen.Select(Gen.Double[1.0001, 1.3], Gen.Double[-4, 1], Gen.Double[-4, 0.3])
            .Sample(
                (reduced, logP, logGuess) =>
                {
                    var t = Math.Clamp(
                        reduced * fluid.CriticalTemperatureK,
                        fluid.MinTemperatureK,
                        fluid.MaxTemperatureK
                    );
                    var p = Math.Min(Math.Pow(10, logP) * fluid.CriticalPressurePa, fluid.MaxPressurePa);
                    var expected =
                        fluid.AtTemperaturePressure(t, p).DensityKgPerM3
                        / fluid.Definition.Equation.ReducingDensityKgPerM3;
                    var delta = Math.Pow(10, logGuess);
                    Assert.True(
                        DensitySolver.TrySolve(IsothermOf(fluid, t), p, 0, Unbounded, ref delta, out var residual)
                    );
                    Assert.True(residual < 1e-9);
                    Assert.Equal(expected, delta, 1e-8 * expected);
                },
                iter: 300
            );
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void The_densest_state_served_lies_well_within_the_densities_searched(string name)
    {
        var fluid = FluidCatalog.Get(name);
        for (
            var t = fluid.MinTemperatureK;
            t <= fluid.MaxTemperatureK;
            t += 0.01 * (fluid.MaxTemperatureK - fluid.MinTemperatureK)
        )
            Assert.InRange(
                fluid.AtTemperaturePressure(t, fluid.MaxPressurePa).DensityKgPerM3
                    / fluid.Definition.Equation.ReducingDensityKgPerM3,
                0.1,
                5
            );
    }

    [Fact]
    public void A_pressure_that_no_density_has_gets_no_answer()
    {
        var fluid = FluidCatalog.Get("R134a");
        var delta = 1.0;
        Assert.False(DensitySolver.TrySolve(IsothermOf(fluid, 400), 1e15, 0, Unbounded, ref delta, out _));
    }

    [Fact]
    public void A_guess_between_the_spinodals_gets_no_answer_unless_a_density_beyond_the_root_is_known()
    {
        var fluid = FluidCatalog.Get("R134a");
        var isotherm = IsothermOf(fluid, 350);
        Assert.True(fluid.Saturation!.Solve(isotherm, out var liquid, out var vapour, out _));
        var pressure = isotherm.PressurePa(vapour, isotherm.Density(vapour));
        var between = 1.0;
        Assert.True(isotherm.Density(between).Stiffness < 0);
        Assert.False(DensitySolver.TrySolve(isotherm, 2 * pressure, 0, Unbounded, ref between, out var residual));
        Assert.True(residual > 1);
        between = 1.0;
        Assert.True(DensitySolver.TrySolve(isotherm, 2 * pressure, 0, 1.2 * liquid, ref between, out _));
        Assert.Equal(2 * pressure, isotherm.PressurePa(between, isotherm.Density(between)), 1e-6 * pressure);
        Assert.True(between > liquid);
        between = 1.0;
        Assert.True(DensitySolver.TrySolve(isotherm, 0.5 * pressure, 0, vapour, ref between, out _));
        Assert.Equal(0.5 * pressure, isotherm.PressurePa(between, isotherm.Density(between)), 1e-9 * pressure);
        Assert.True(between < vapour);
    }

    private static Isotherm IsothermOf(Fluid fluid, double temperatureK) =>
        new(fluid.Definition.Equation, temperatureK, caloric: false, new double[ResidualPart.MaxWork]);
}
