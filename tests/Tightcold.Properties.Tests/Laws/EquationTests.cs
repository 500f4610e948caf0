using CsCheck;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Tests.Laws;

public sealed class EquationTests
{
    public static TheoryData<string> Fluids => [.. FluidCatalog.Names];

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Fused_terms_equal_the_terms_as_printed_with_derivatives_by_machine(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var equation = fluid.Definition.Equation;
        var printed = new EquationAsPrinted(name);
        var lowTau = equation.ReducingTemperatureK / fluid.MaxTemperatureK;
        var highTau = equation.ReducingTemperatureK / fluid.MinTemperatureK;
        Gen.Select(Gen.Double[1e-6, 2.5], Gen.Double[lowTau, highTau])
            .Sample(
                (delta, tau) =>
                {
                    // The non-analytic terms are singular at delta = 1, as printed and by machine; the engine steps
                    // aside there.
                    if (equation.Residual.HasNonAnalyticTerms && Math.Abs(delta - 1) < 1e-6)
                        return;
                    var work = new double[ResidualPart.MaxWork];
                    equation.Residual.PrepareTemperature(tau, Math.Log(tau), withDerivatives: true, work);
                    var fused = equation.Residual.Evaluate(delta, tau, work);
                    var density = equation.Residual.EvaluateDensity(delta, tau, work);
                    var jet = printed.Residual(Jet.Delta(delta), Jet.Tau(tau));
                    // Large terms cancel: compare with the scale of the sum's parts, a hundred thousandth of which is
                    // rounding at 1e-16.
                    var scale =
                        1
                        + Math.Abs(jet.V)
                        + Math.Abs(delta * jet.D)
                        + Math.Abs(tau * jet.T)
                        + Math.Abs(delta * delta * jet.Dd)
                        + Math.Abs(tau * tau * jet.Tt);
                    var tolerance = 1e-11 * scale;
                    Assert.Equal(jet.V, fused.A, tolerance);
                    Assert.Equal(delta * jet.D, fused.D, tolerance);
                    Assert.Equal(delta * delta * jet.Dd, fused.DD, tolerance);
                    Assert.Equal(tau * jet.T, fused.T, tolerance);
                    Assert.Equal(tau * tau * jet.Tt, fused.TT, tolerance);
                    Assert.Equal(delta * tau * jet.Dt, fused.DT, tolerance);
                    Assert.Equal(fused.A, density.A, tolerance);
                    Assert.Equal(fused.D, density.D, tolerance);
                    Assert.Equal(fused.DD, density.DD, tolerance);

                    equation.Ideal.Evaluate(tau, Math.Log(tau), out var value, out var first, out var second);
                    var ideal = printed.Ideal(Jet.Tau(tau));
                    var idealScale =
                        1e-12 * (1 + Math.Abs(ideal.V) + Math.Abs(tau * ideal.T) + Math.Abs(tau * tau * ideal.Tt));
                    Assert.Equal(ideal.V, value, idealScale);
                    Assert.Equal(tau * ideal.T, first, idealScale);
                    Assert.Equal(tau * tau * ideal.Tt, second, idealScale);
                }
            );
    }

    // The check of IAPWS R6-95(2018), table 6, at 500 K and 838.025 kg/m3 (from memory of the release).
    [Fact]
    public void Water_terms_match_the_check_table_of_the_formulation()
    {
        var equation = FluidCatalog.Get("Water").Definition.Equation;
        double delta = 838.025 / 322,
            tau = 647.096 / 500;
        var work = new double[ResidualPart.MaxWork];
        equation.Residual.PrepareTemperature(tau, Math.Log(tau), withDerivatives: true, work);
        var r = equation.Residual.Evaluate(delta, tau, work);
        Assert.Equal(-3.42693206, r.A, 1e-8);
        Assert.Equal(-0.364366650, r.D / delta, 1e-8);
        Assert.Equal(0.856063701, r.DD / (delta * delta), 1e-8);
        Assert.Equal(-5.81403435, r.T / tau, 1e-8);
        Assert.Equal(-2.23440737, r.TT / (tau * tau), 1e-8);
        Assert.Equal(-1.12176915, r.DT / (delta * tau), 1e-8);
        equation.Ideal.Evaluate(tau, Math.Log(tau), out var value, out var first, out var second);
        Assert.Equal(2.04797733, value + Math.Log(delta), 1e-8);
        Assert.Equal(9.04611106, first / tau, 1e-8);
        Assert.Equal(-1.93249185, second / (tau * tau), 1e-8);
    }

    [Fact]
    public void The_singular_terms_stay_finite_at_the_critical_point_itself()
    {
        foreach (var name in (string[])["R744", "Water"])
        {
            var fluid = FluidCatalog.Get(name);
            var state = fluid.AtTemperatureDensity(fluid.CriticalTemperatureK, fluid.CriticalDensityKgPerM3);
            Assert.Equal(fluid.CriticalPressurePa, state.PressurePa, 1e-3 * fluid.CriticalPressurePa);
            Assert.True(double.IsFinite(state.EnthalpyJPerKg) && double.IsFinite(state.EntropyJPerKgK));
        }
    }
}
