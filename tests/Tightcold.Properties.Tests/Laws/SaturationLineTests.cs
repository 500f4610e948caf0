using CsCheck;
using Tightcold.Properties.Helmholtz;
using Tightcold.Properties.Saturation;

namespace Tightcold.Properties.Tests.Laws;

/// <summary>The solver of the saturation line by itself: to both ends of the line, and from bad guesses.</summary>
public sealed class SaturationLineTests
{
    public static TheoryData<string> Fluids => StateLawTests.FluidsWithSaturation;

    [Theory]
    [MemberData(nameof(Fluids))]
    public void From_the_triple_point_to_a_millionth_below_the_critical_both_phases_have_one_pressure_and_one_Gibbs_energy(
        string name
    )
    {
        var fluid = FluidCatalog.Get(name);
        var span = 1 - (fluid.MinTemperatureK / fluid.CriticalTemperatureK);
        for (
            var distance = span;
            distance > 1.01e-6;
            distance = distance > 0.9 * span ? distance - (1e-3 * span) : 0.97 * distance
        )
        {
            var line = new Line(fluid, fluid.CriticalTemperatureK * (1 - distance));
            Assert.True(line.Solve(out var liquid, out var vapour));
            // Rounding: a liquid's pressure carries 1e-16 of its density times its stiffness, and large terms cancel in
            // it.
            var (l, v) = (line.Isotherm.Density(liquid), line.Isotherm.Density(vapour));
            Assert.Equal(
                vapour * v.Compressibility,
                liquid * l.Compressibility,
                1e-12 * Math.Max(liquid * l.Stiffness, vapour)
            );
            Assert.Equal(l.A + l.D + Math.Log(liquid), v.A + v.D + Math.Log(vapour), 1e-11);
            // Two phases, not one root twice: both stable, and apart by more than a mean-field fluid's gap (van der
            // Waals: 4 sqrt).
            Assert.True(l.Stiffness > 0 && v.Stiffness > 0);
            Assert.True(
                (liquid - vapour) / fluid.ByTemperature.Critical.Delta > 2 * Math.Sqrt(distance),
                $"{name}: {liquid} {vapour} at {distance}"
            );
        }
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Guesses_as_good_as_a_printed_correlation_always_lead_to_the_two_phases(string name)
    {
        // Printed correlations of saturated densities are good to half a percent, and used up to 0.9975 of the critical
        // temperature.
        var fluid = FluidCatalog.Get(name);
        Gen.Select(Points.Saturation(fluid, 0.9975), Gen.Double[0.995, 1.005], Gen.Double[0.995, 1.005])
            .Sample(
                (t, offL, offV) =>
                {
                    var line = new Line(fluid, t);
                    Assert.True(line.Solve(out var liquid, out var vapour));
                    double foundL = offL * liquid,
                        foundV = offV * vapour;
                    Assert.True(
                        SaturationSolver.TrySolve(line.Isotherm, ref foundL, ref foundV, 1e-12, out var residual)
                    );
                    Assert.True(residual < 1e-10);
                    // Rounding moves the densities by some 1e-14 over the square of the distance from the critical
                    // point in x.
                    Assert.Equal(liquid, foundL, 1e-10 * liquid);
                    Assert.Equal(vapour, foundV, 1e-10 * vapour);
                }
            );
    }

    [Theory]
    [MemberData(nameof(Fluids))]
    public void Guesses_that_belong_to_one_phase_or_to_none_get_no_answer(string name)
    {
        var fluid = FluidCatalog.Get(name);
        foreach (var part in (double[])[0.95, 0.99, 0.999])
        {
            var line = new Line(fluid, part * fluid.CriticalTemperatureK);
            Assert.True(line.Solve(out var liquid, out var vapour));
            var unstable = LeastStable(line, vapour, liquid);
            Refused(line, unstable, vapour);
            Refused(line, liquid, unstable);
            // Two in the same phase run together: one root twice would balance perfectly.
            Refused(line, 1.01 * liquid, liquid);
            Refused(line, vapour, 0.99 * vapour);
            // And so would the phases in each other's place.
            Refused(line, vapour, liquid);
        }
    }

    private static double LeastStable(in Line line, double vapour, double liquid)
    {
        var least = vapour;
        for (var delta = vapour; delta < liquid; delta += 0.01 * (liquid - vapour))
        {
            if (line.Isotherm.Density(delta).Stiffness < line.Isotherm.Density(least).Stiffness)
                least = delta;
        }

        Assert.True(line.Isotherm.Density(least).Stiffness < 0);
        return least;
    }

    private static void Refused(in Line line, double liquid, double vapour) =>
        Assert.False(SaturationSolver.TrySolve(line.Isotherm, ref liquid, ref vapour, 1e-9, out _));

    private readonly ref struct Line(Fluid fluid, double temperatureK)
    {
        public Isotherm Isotherm { get; } =
            new(fluid.Definition.Equation, temperatureK, caloric: false, new double[ResidualPart.MaxWork]);

        public bool Solve(out double liquid, out double vapour) =>
            fluid.Saturation!.Solve(Isotherm, out liquid, out vapour, out _);
    }
}
