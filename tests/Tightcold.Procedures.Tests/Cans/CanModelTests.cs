using CsCheck;
using Tightcold.Procedures.Cans;
using Tightcold.Properties;

namespace Tightcold.Procedures.Tests.Cans;

public sealed class CanModelTests
{
    private static readonly Fluid R134a = FluidCatalog.Get("R134a");

    // 340 g can of the worked case: 0.34 L, 70 g of steel.
    private static readonly CanBody Can = CanBody.OfSteel(0.34e-3, 0.070);
    private static readonly CanSurroundings Insulated = new(298.15, 0, 1, null);
    private static readonly FlowPath Wide = new(2e-6, 5e-3, 1.8);

    private static CanRun Run(
        CanSurroundings around,
        FlowPath path,
        Receiver system,
        bool inverted = false,
        double wanted = 1,
        double startK = 298.15,
        double mass = 0.340
    ) => CanModel.Run(R134a, Can, mass, startK, inverted, around, path, system, wanted);

    // Hand-worked with handbook values half-way (8 °C): c_l 1.364 kJ/(kg K), r 192.3 kJ/kg; wall 70 g × 0.46 J/(g K),
    // so that m_eff = 340 + 32.2/1.364 = 363.6 g and ΔT = (r/c_l)·ln[363.6/(363.6 − 85)] = 37.5 K: -12.5 °C after 85 g
    // without heat.
    [Fact]
    public void A_can_without_heat_is_near_minus_12_C_after_85_g_of_vapour()
    {
        var run = Run(Insulated, Wide, Receiver.Running(5e4), wanted: 0.085);
        Assert.Equal(CanEnd.Delivered, run.End);
        Assert.InRange(run.Moments[^1].TemperatureK - 273.15, -12.5 - 1, -12.5 + 1);
    }

    // The same end state from the reference properties alone, by another road than the model's: the first law over the
    // whole draw, U₂ − U₁ + ∫h″dm = 0, with the integral over the saturation line between the two temperatures.
    [Fact]
    public void The_end_state_of_that_draw_closes_the_first_law_with_the_reference_properties()
    {
        var run = Run(Insulated, Wide, Receiver.Running(5e4), wanted: 0.085);
        double U(double kelvin, double mass)
        {
            var state = R134a.AtTemperatureDensity(kelvin, mass / 0.34e-3);
            return mass * state.InternalEnergyJPerKg + 0.070 * 460 * kelvin;
        }
        double carried = 0;
        for (var i = 1; i < run.Moments.Length; i++)
        {
            var (before, after) = (run.Moments[i - 1], run.Moments[i]);
            var enthalpy =
                0.5
                * (
                    R134a.SaturationAtTemperature(before.TemperatureK).VapourEnthalpyJPerKg
                    + R134a.SaturationAtTemperature(after.TemperatureK).VapourEnthalpyJPerKg
                );
            carried += enthalpy * (before.LeftKg - after.LeftKg);
        }
        var change = U(run.Moments[^1].TemperatureK, 0.255) - U(298.15, 0.340);
        // 85 g × 180 kJ/kg = 15 kJ are turned over; backward steps of a third of a kelvin leave a hundredth of that.
        Assert.InRange(change + carried, -60, 60);
    }

    // Hand-worked: air 25 °C, 0.5 W/K, low side 2 bar gauge (boiling at about 1 °C): (0.5 × 24 K)/185 kJ/kg = 0.065
    // g/s.
    [Fact]
    public void In_air_a_can_stalls_and_then_gives_65_milligrams_a_second()
    {
        var run = Run(new(298.15, 0.5, 1, null), FlowPath.Usual(5e-3, 1.8), Receiver.Running(3.013e5));
        var settled = run.Moments.First(moment => moment.LeftKg < 0.200);
        Assert.InRange(settled.RateKgPerS * 1e3, 0.058, 0.070);
        Assert.InRange(settled.TemperatureK - 273.15, 0.3, 2.5);
        Assert.NotNull(run.StallSeconds);
        Assert.InRange(run.Moments.First(moment => moment.Seconds >= run.StallSeconds).LeftKg, 0.24, 0.33);
    }

    // Hand-worked: bath held at 40 °C, 10 W/K: (10 × 39 K)/185 kJ/kg = 2.1 g/s at the most, about 2.7 min for 340 g, if
    // tap and hose let it.
    [Fact]
    public void A_bath_at_40_C_gives_two_grams_a_second_through_a_wide_tap()
    {
        var run = Run(new(313.15, 10, 1, null), Wide, Receiver.Running(3.013e5), startK: 298.15);
        var settled = run.Moments.First(moment => moment.LeftKg < 0.150);
        Assert.InRange(settled.RateKgPerS * 1e3, 1.8, 2.3);
        Assert.Null(run.StallSeconds);
        Assert.InRange(run.Moments.First(moment => moment.LiquidKg < 0.001).Seconds / 60, 1.8, 3.0);
    }

    // Loop model notes: inverted, only the displaced volume evaporates (ρ″/ρ′ = 0.027): less than 3 K... for liquid
    // taken while most of it is there; the full emptying cools more as the wall and the last liquid pay for all the
    // vapour.
    [Fact]
    public void Inverted_into_an_evacuated_system_at_rest_the_can_hardly_cools()
    {
        var run = Run(
            CanSurroundings.StillAir(298.15),
            FlowPath.Usual(5e-3, 1.8),
            Receiver.AtRest(2.5e-3, 298.15, 0),
            inverted: true,
            wanted: 0.200
        );
        Assert.True(298.15 - run.Moments[^1].TemperatureK < 3, $"{run.Moments[^1].TemperatureK}");
    }

    // Vapour into a system at rest of the same temperature: the can cools, pressures meet, liquid stays behind.
    // Hand-worked: after 43 g the formula above gives 141 K·ln[363.6/320.6] = 17.7 K, 7.3 °C and 3.8 bar; vapour of 3.8
    // bar at 25 °C has about 17.3 kg/m³ (handbook, superheated), times 2.5 L: 43 g.
    [Fact]
    public void Into_a_resting_system_the_flow_dies_with_the_can_cold_and_liquid_left()
    {
        var run = Run(Insulated, Wide, Receiver.AtRest(2.5e-3, 298.15, 0));
        Assert.Equal(CanEnd.Equalised, run.End);
        Assert.InRange(run.GivenKg, 0.041, 0.045);
        Assert.Equal(run.Moments[^1].PressurePa, run.Moments[^1].SystemPa, 2000.0);
    }

    [Fact]
    public void A_warm_system_would_fill_a_cold_can_and_that_is_said_instead_of_computed()
    {
        var run = Run(Insulated, Wide, Receiver.AtRest(2.5e-3, 313.15, 0.4), startK: 288.15);
        Assert.Equal(CanEnd.Backflow, run.End);
        Assert.Equal(0, run.GivenKg);
    }

    // 340 g × 180 kJ/kg = 61 kJ; one kilogram of water gives 4.19 kJ per kelvin: it cools by about 14 K.
    [Fact]
    public void A_litre_of_bath_cools_by_the_heat_it_gives()
    {
        var run = Run(CanSurroundings.Bath(313.15, 1), FlowPath.Usual(5e-3, 1.8), Receiver.Running(3e5));
        Assert.InRange(313.15 - run.SurroundingsEndK, 9, 16);
        Assert.Equal(run.HeatInJ, (313.15 - run.SurroundingsEndK) * 4180, 3);
    }

    [Theory]
    [InlineData(326)]
    [InlineData(double.NaN)]
    public void A_bath_above_52_C_is_refused(double kelvin) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CanSurroundings.Bath(kelvin, 2));

    [Fact]
    public void Nonsense_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Run(Insulated, Wide, Receiver.Running(3e5), mass: double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Run(Insulated, Wide, Receiver.Running(3e5), mass: 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => Receiver.Running(double.NaN));
    }

    // At a low side of 3 bar absolute (0.7 °C) liquid of 25 °C flashes x = (234.6 − 200.9)/198 ≈ 0.17 (handbook
    // enthalpies); 30 g/s of suction gas with 10 K of superheat bring 30 × 0.9 × 10 = 270 W: 1.4 g/s of the rest, so
    // 1.6 g/s of liquid at the most.
    [Fact]
    public void Liquid_into_a_running_suction_is_safe_only_as_a_trickle()
    {
        var risk = LiquidRisk.Of(R134a, 298.15, 3e5, 6e-3, 30e-3, 10);
        Assert.InRange(risk.FlashedShare, 0.16, 0.18);
        Assert.InRange(risk.MostSafeKgPerS * 1e3, 1.5, 1.8);
        Assert.InRange(risk.ReachesCompressorKgPerS * 1e3, 3.4, 3.8);
    }

    [Fact]
    public void Energy_and_mass_close_for_any_can_and_no_can_gives_more_than_it_has()
    {
        var cases = Gen.Select(
            Gen.Double[0.05, 0.32],
            Gen.Double[263, 318],
            Gen.Double[0, 12],
            Gen.Double[278, 323],
            Gen.Bool,
            Gen.Double[1.5e5, 4e5],
            Gen.Bool
        );
        cases.Sample(
            (mass, startK, conductance, envK, inverted, lowPa, yf) =>
            {
                var run = CanModel.Run(
                    FluidCatalog.Get(yf ? "R1234yf" : "R134a"),
                    Can,
                    mass,
                    startK,
                    inverted,
                    new(envK, conductance, 1, null),
                    FlowPath.Usual(4e-3, 1),
                    Receiver.Running(lowPa),
                    1,
                    1200
                );
                Assert.True(Math.Abs(run.EnergyErrorJ) < 0.05, $"{run.EnergyErrorJ} J");
                Assert.Equal(mass, run.Moments[^1].LeftKg + run.GivenKg, 12);
                Assert.True(run.Moments[^1].LeftKg > 0);
                Assert.All(run.Moments, moment => Assert.True(moment.TemperatureK <= Math.Max(startK, envK) + 0.01));
            },
            iter: 25,
            threads: 1
        );
    }

    [Fact]
    public void A_warmer_bath_never_takes_longer()
    {
        var previous = double.MaxValue;
        foreach (var celsius in new[] { 15, 25, 35, 45, 52 })
        {
            var run = Run(
                CanSurroundings.Bath(273.15 + celsius, 3),
                FlowPath.Usual(5e-3, 1.8),
                Receiver.Running(3e5),
                wanted: 0.3
            );
            Assert.True(run.Seconds <= previous);
            previous = run.Seconds;
        }
    }
}
