using CsCheck;

namespace Tightcold.Properties.Tests.Laws;

/// <summary>What any equilibrium state must obey, whatever the coefficients.</summary>
public sealed class StateLawTests
{
    public static TheoryData<string> Fluids => [.. FluidCatalog.Names];

    public static TheoryData<string> FluidsWithSaturation =>
        ["R134a", "R1234yf", "R152a", "R744", "R12", "Water", "Nitrogen"];

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Maxwell_and_Gibbs_relations_hold_between_neighbouring_states(string name)
    {
        var fluid = FluidCatalog.Get(name);
        Points
            .TemperaturePressure(fluid)
            .Sample(
                (t, p) =>
                {
                    var s = fluid.AtTemperaturePressure(t, p);
                    if (s.CpJPerKgK is not { } cp || cp > 2e4)
                        return;
                    const double Step = 1e-5;
                    if (t * (1 + Step) > fluid.MaxTemperatureK || t * (1 - Step) < fluid.MinTemperatureK)
                        return;
                    FluidState At(double dt, double dRho) =>
                        fluid.AtTemperatureDensityOfPhase(t * (1 + dt), s.DensityKgPerM3 * (1 + dRho), s.Phase, out _);
                    var (warm, cold, dense, thin) = (At(Step, 0), At(-Step, 0), At(0, Step), At(0, -Step));
                    double byT(Func<FluidState, double> f) => (f(warm) - f(cold)) / (2 * Step * t);
                    double byRho(Func<FluidState, double> f) => (f(dense) - f(thin)) / (2 * Step * s.DensityKgPerM3);
                    var rho = s.DensityKgPerM3;
                    // Water below 4 degC has a negative dp/dT: its size is what errors are measured by, with a floor
                    // where it vanishes.
                    var slopeP = s.PressureByTemperatureAtDensity;
                    var scaleP = Math.Max(Math.Abs(slopeP), rho * fluid.GasConstantJPerMolK / fluid.MolarMassKgPerMol);
                    // (ds/drho)_T = -(dp/dT)_rho / rho^2; T (ds/dT)_rho = cv = (du/dT)_rho; (du/drho)_T = (p - T
                    // dp/dT)/rho^2.
                    Close(-slopeP / (rho * rho), byRho(x => x.EntropyJPerKgK), 1e-6 * scaleP / (rho * rho));
                    Close(slopeP, byT(x => x.PressurePa), 2e-6 * scaleP);
                    Close(s.CvJPerKgK!.Value, t * byT(x => x.EntropyJPerKgK), 2e-6 * s.CvJPerKgK.Value);
                    Close(s.CvJPerKgK.Value, byT(x => x.InternalEnergyJPerKg), 2e-6 * s.CvJPerKgK.Value);
                    Close(
                        (s.PressurePa - (t * slopeP)) / (rho * rho),
                        byRho(x => x.InternalEnergyJPerKg),
                        1e-6 * t * scaleP / (rho * rho)
                    );
                    Close(
                        s.PressureByDensityAtTemperature,
                        byRho(x => x.PressurePa),
                        2e-6 * Math.Max(s.PressureByDensityAtTemperature, s.PressurePa / rho)
                    );
                    // cp - cv = T (dp/dT)^2 / (rho^2 dp/drho); w^2 = cp/cv dp/drho; h = u + p/rho.
                    Close(
                        cp - s.CvJPerKgK.Value,
                        t * slopeP * slopeP / (rho * rho * s.PressureByDensityAtTemperature),
                        1e-9 * cp
                    );
                    Close(
                        s.SpeedOfSoundMPerS!.Value * s.SpeedOfSoundMPerS.Value,
                        cp / s.CvJPerKgK.Value * s.PressureByDensityAtTemperature,
                        1e-9 * s.SpeedOfSoundMPerS.Value * s.SpeedOfSoundMPerS.Value
                    );
                    Close(
                        s.EnthalpyJPerKg,
                        s.InternalEnergyJPerKg + (s.PressurePa / rho),
                        1e-7 * (Math.Abs(s.EnthalpyJPerKg) + (s.PressurePa / rho))
                    );
                    Assert.True(s.CvJPerKgK > 0 && cp >= s.CvJPerKgK);
                }
            );
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void The_Joule_Thomson_coefficient_is_the_slope_of_a_line_of_constant_enthalpy(string name)
    {
        var fluid = FluidCatalog.Get(name);
        Points
            .TemperaturePressure(fluid)
            .Sample(
                (t, p) =>
                {
                    var s = fluid.AtTemperaturePressure(t, p);
                    var low = fluid.AtTemperaturePressure(t, p * 0.9999);
                    if (s.JouleThomsonKPerPa is not { } slope || s.CpJPerKgK > 5e3 || low.Phase != s.Phase)
                        return;
                    var other = fluid.AtPressureEnthalpy(p * 0.9999, s.EnthalpyJPerKg);
                    if (other.Phase != s.Phase)
                        return;
                    Close(
                        slope,
                        (s.TemperatureK - other.TemperatureK) / (1e-4 * p),
                        (2e-3 * Math.Abs(slope)) + 1e-9 + (1e-9 * t / (1e-4 * p))
                    );
                }
            );
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Flash_round_trips_return_to_the_state_they_left_within_1e9(string name)
    {
        var fluid = FluidCatalog.Get(name);
        Points
            .TemperaturePressure(fluid)
            .Sample(
                (t, p) =>
                {
                    var s = fluid.AtTemperaturePressure(t, p);
                    // Where cp grows without bound an enthalpy of sixteen digits no longer fixes a temperature of nine.
                    var blur = 1e-9 + (1e-15 * (s.CpJPerKgK ?? 1e6));
                    Same(s, fluid.AtPressureEnthalpy(p, s.EnthalpyJPerKg), blur);
                    Same(s, fluid.AtPressureEntropy(p, s.EntropyJPerKgK), blur);
                    var byDensity = fluid.AtTemperatureDensity(t, s.DensityKgPerM3);
                    Close(
                        p,
                        byDensity.PressurePa,
                        (1e-9 * p) + (4e-16 * s.DensityKgPerM3 * s.PressureByDensityAtTemperature * 10)
                    );
                    Assert.Equal(s.Phase, byDensity.Phase);
                    Same(s, fluid.AtDensityInternalEnergy(s.DensityKgPerM3, s.InternalEnergyJPerKg), blur);
                },
                iter: 60
            );
    }

    [Theory]
    [MemberData(nameof(FluidsWithSaturation))]
    public void Two_phase_round_trips_return_quality_and_temperature_within_1e9(string name)
    {
        var fluid = FluidCatalog.Get(name);
        Gen.Select(Points.Saturation(fluid, 0.995), Gen.Double[0.001, 0.999])
            .Sample(
                (t, x) =>
                {
                    var s = fluid.AtTemperatureQuality(t, x);
                    Assert.Equal(FluidPhase.TwoPhase, s.Phase);
                    Assert.Null(s.CpJPerKgK);
                    foreach (
                        var back in (FluidState[])
                            [
                                fluid.AtPressureQuality(s.PressurePa, x),
                                fluid.AtPressureEnthalpy(s.PressurePa, s.EnthalpyJPerKg),
                                fluid.AtPressureEntropy(s.PressurePa, s.EntropyJPerKgK),
                                fluid.AtTemperatureDensity(t, s.DensityKgPerM3),
                                fluid.AtDensityInternalEnergy(s.DensityKgPerM3, s.InternalEnergyJPerKg),
                            ]
                    )
                    {
                        Assert.Equal(FluidPhase.TwoPhase, back.Phase);
                        Close(t, back.TemperatureK, 1e-9 * t);
                        Close(x, back.Quality!.Value, 1e-8);
                    }
                },
                iter: 60
            );
    }

    [Theory]
    [MemberData(nameof(FluidsWithSaturation))]
    public void Saturated_phases_have_equal_fugacity_and_pressure(string name)
    {
        var fluid = FluidCatalog.Get(name);
        Points
            .Saturation(fluid)
            .Sample(t =>
            {
                var s = fluid.SaturationAtTemperature(t);
                var liquid = fluid.AtTemperatureQuality(t, 0);
                var vapour = fluid.AtTemperatureQuality(t, 1);
                Close(liquid.FugacityPa, vapour.FugacityPa, 1e-10 * vapour.FugacityPa);
                // h - T s of both phases differ by nothing.
                Close(
                    s.LiquidEnthalpyJPerKg - (t * s.LiquidEntropyJPerKgK),
                    s.VapourEnthalpyJPerKg - (t * s.VapourEntropyJPerKgK),
                    1e-9 * Math.Max(1e5, s.VapourEnthalpyJPerKg)
                );
                Assert.True(s.VapourDensityKgPerM3 < s.LiquidDensityKgPerM3);
            });
    }

    [Theory]
    [MemberData(nameof(FluidsWithSaturation))]
    public void Saturation_pressure_follows_Clapeyron_and_rises_with_temperature(string name)
    {
        var fluid = FluidCatalog.Get(name);
        Points
            .Saturation(fluid, 0.99)
            .Where(t => t > fluid.MinTemperatureK + 0.1)
            .Sample(t =>
            {
                const double Step = 1e-5;
                var slope =
                    (
                        fluid.SaturationAtTemperature(t * (1 + Step)).PressurePa
                        - fluid.SaturationAtTemperature(t * (1 - Step)).PressurePa
                    ) / (2 * Step * t);
                var state = fluid.SaturationAtTemperature(t);
                Assert.True(slope > 0);
                Close(state.PressureSlopePaPerK, slope, 1e-6 * slope);
                Close(
                    state.LatentHeatJPerKg,
                    t * (state.VapourEntropyJPerKgK - state.LiquidEntropyJPerKgK),
                    1e-8 * state.VapourEnthalpyJPerKg
                );
            });
    }

    [Theory]
    [MemberData(nameof(FluidsWithSaturation))]
    public void Saturation_holds_to_within_a_millionth_of_the_critical_temperature(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var previous = fluid.SaturationAtTemperature(0.99 * fluid.CriticalTemperatureK);
        for (var distance = 5e-3; distance > 1e-7; distance *= 0.7)
        {
            var state = fluid.SaturationAtTemperature((1 - distance) * fluid.CriticalTemperatureK);
            Assert.True(state.PressurePa > previous.PressurePa);
            Assert.True(
                state.LiquidDensityKgPerM3 < previous.LiquidDensityKgPerM3
                    && state.VapourDensityKgPerM3 > previous.VapourDensityKgPerM3
            );
            Assert.True(state.LiquidDensityKgPerM3 > state.VapourDensityKgPerM3);
            Close(
                state.TemperatureK,
                fluid.SaturationAtPressure(state.PressurePa).TemperatureK,
                1e-9 * state.TemperatureK
            );
            previous = state;
        }

        // At the end of the line both phases are one.
        var end = fluid.SaturationAtPressure(fluid.CriticalPressurePa);
        Close(fluid.CriticalTemperatureK, end.TemperatureK, 1e-6 * end.TemperatureK);
        Close(end.LiquidDensityKgPerM3, end.VapourDensityKgPerM3, 0.02 * end.LiquidDensityKgPerM3);
        Assert.Equal(FluidPhase.TwoPhase, fluid.AtPressureQuality(fluid.CriticalPressurePa, 0.5).Phase);
        Assert.Equal(FluidPhase.TwoPhase, fluid.AtTemperatureQuality(fluid.CriticalTemperatureK, 0.5).Phase);
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void At_constant_pressure_enthalpy_and_entropy_rise_and_density_falls_with_temperature(string name)
    {
        var fluid = FluidCatalog.Get(name);
        Gen.Select(Points.TemperaturePressure(fluid), Gen.Double[0.05, 20])
            .Sample(
                (point, dt) =>
                {
                    var low = fluid.AtTemperaturePressure(point.T, point.P);
                    var high = fluid.AtTemperaturePressure(Math.Min(point.T + dt, fluid.MaxTemperatureK), point.P);
                    if (high.TemperatureK <= low.TemperatureK)
                        return;
                    Assert.True(high.EnthalpyJPerKg > low.EnthalpyJPerKg);
                    Assert.True(high.EntropyJPerKgK > low.EntropyJPerKgK);
                    // Water contracts up to 4 degC.
                    Assert.True(
                        high.DensityKgPerM3 < low.DensityKgPerM3 || (name == "Water" && low.TemperatureK < 277.2)
                    );
                }
            );
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Work_and_heat_close_round_random_cycles(string name)
    {
        // A cycle of two isobars and two lines of constant entropy: heat is the integral of T ds along the isobars,
        // technical work that of v dp along the others; round the cycle they balance (first law).
        var fluid = FluidCatalog.Get(name);
        var (nodes, weights) = Gauss();
        Gen.Select(Points.TemperaturePressure(fluid), Points.TemperaturePressure(fluid))
            .Sample(
                (a, b) =>
                {
                    var one = fluid.AtTemperaturePressure(a.T, a.P);
                    var two = fluid.AtTemperaturePressure(b.T, a.P);
                    double p1 = a.P,
                        p2 = Math.Clamp(b.P, 0.5 * a.P, 2 * a.P);
                    if (one.Phase != FluidPhase.Gas || two.Phase != FluidPhase.Gas)
                        return;
                    double heat = 0,
                        work = 0;
                    double high = Math.Max(one.EntropyJPerKgK, two.EntropyJPerKgK),
                        low = Math.Min(one.EntropyJPerKgK, two.EntropyJPerKgK);
                    try
                    {
                        for (var i = 0; i < nodes.Length; i++)
                        {
                            var s = low + ((high - low) * nodes[i]);
                            heat +=
                                weights[i]
                                * (high - low)
                                * (
                                    fluid.AtPressureEntropy(p1, s).TemperatureK
                                    - fluid.AtPressureEntropy(p2, s).TemperatureK
                                );
                            var p = p1 * Math.Pow(p2 / p1, nodes[i]);
                            // dp = p ln(p2/p1) dx
                            work +=
                                weights[i]
                                * p
                                * Math.Log(p2 / p1)
                                * (
                                    (1 / fluid.AtPressureEntropy(p, high).DensityKgPerM3)
                                    - (1 / fluid.AtPressureEntropy(p, low).DensityKgPerM3)
                                );
                        }

                        if (fluid.AtPressureEntropy(p2, low).Phase != FluidPhase.Gas)
                            return;
                    }
                    catch (FluidRangeException)
                    {
                        return; // a corner beyond the hottest state served
                    }

                    // Heat taken at p1 less heat given at p2 plus work along the high line less along the low one is
                    // nothing.
                    var size = (high - low) * one.TemperatureK;
                    Close(0, heat + work, 1e-7 * size + 1e-3);
                },
                iter: 25
            );
    }

    private static void Same(in FluidState expected, in FluidState actual, double tolerance)
    {
        Assert.Equal(expected.Phase, actual.Phase);
        Close(expected.TemperatureK, actual.TemperatureK, tolerance * expected.TemperatureK);
        // Near the critical point density answers to temperature by up to cp/R.
        Close(
            expected.DensityKgPerM3,
            actual.DensityKgPerM3,
            10 * tolerance * expected.DensityKgPerM3 * Math.Max(1, (expected.CpJPerKgK ?? 1e5) / 1e3)
        );
    }

    private static void Close(double expected, double actual, double tolerance) =>
        Assert.Equal(expected, actual, tolerance);

    private static (double[] Nodes, double[] Weights) Gauss()
    {
        // Gauss-Legendre with 8 points on [0, 1] (Abramowitz and Stegun, table 25.4).
        double[] x = [0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363];
        double[] w = [0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763];
        return (
            [.. x.Select(v => 0.5 * (1 + v)), .. x.Select(v => 0.5 * (1 - v))],
            [.. w.Select(v => 0.5 * v), .. w.Select(v => 0.5 * v)]
        );
    }
}
