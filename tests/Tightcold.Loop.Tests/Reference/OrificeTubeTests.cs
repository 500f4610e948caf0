using Tightcold.Loop.Expansion;
using Tightcold.Loop.Refrigerant;

namespace Tightcold.Loop.Tests.Reference;

/// <summary>
/// Sanity only: the subcooled law of Payne and O'Neal evaluated for a car's tube by somebody else's program, R-134a,
/// inlet 15 bar, length 38.3 mm, outlet 3 bar. Model against model, never called measured.
/// </summary>
public sealed class OrificeTubeTests
{
    [Theory]
    [InlineData(1.50, 5, 30.0, 0.04)]
    [InlineData(1.50, 0, 19.4, 0.04)]
    [InlineData(1.45, 10, 33.6, 0.04)]
    [InlineData(1.80, 5, 44.8, 0.04)]
    public void Subcooled_flow_agrees_with_the_law_as_evaluated_elsewhere(
        double diameterMm,
        double subcoolingK,
        double gramsPerSecond,
        double tolerance
    ) =>
        Assert.Equal(
            gramsPerSecond,
            Flow(diameterMm, row => row.LiquidEnthalpy - (row.LiquidCp * subcoolingK)),
            tolerance * gramsPerSecond
        );

    /// <summary>Our own fit to the law's two-phase factor: 12 % asked.</summary>
    [Theory]
    [InlineData(0.05, 17.6)]
    [InlineData(0.15, 13.1)]
    [InlineData(0.30, 8.0)]
    public void Flow_of_a_flashing_inlet_agrees_within_12_percent(double quality, double gramsPerSecond) =>
        Assert.Equal(
            gramsPerSecond,
            Flow(1.5, row => row.LiquidEnthalpy + (quality * row.Latent)),
            0.12 * gramsPerSecond
        );

    [Fact]
    public void Flow_never_rises_with_outlet_pressure_and_turns_with_it()
    {
        RefrigerantTables.For("R134a").Row(Math.Log(12e5), out var row);
        var last = double.PositiveInfinity;
        for (var outlet = 1e5; outlet < 14e5; outlet += 0.25e5)
        {
            var flow = Throttle.Tube(row, row.LiquidEnthalpy - 6e3, 1.5e-3, 38.3e-3, outlet, 374.2, 40.6e5);
            Assert.True(flow <= last);
            last = flow;
        }

        Assert.True(last < 0);
    }

    private static double Flow(double diameterMm, Func<SaturationRow, double> enthalpy)
    {
        var table = RefrigerantTables.For("R134a");
        table.Row(Math.Log(15e5), out var row);
        return 1e3
            * Throttle.Tube(
                row,
                enthalpy(row),
                diameterMm * 1e-3,
                38.3e-3,
                3e5,
                table.CriticalTemperatureK,
                table.CriticalPressurePa
            );
    }
}
