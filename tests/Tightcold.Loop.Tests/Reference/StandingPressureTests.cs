using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Inventory;
using Tightcold.Loop.Refrigerant;
using Tightcold.Loop.Results;

namespace Tightcold.Loop.Tests.Reference;

/// <summary>A maker's base-pressure table, engine off, R-134a, a saloon of 2001 (service manual): bar gauge, printed to
/// 0.1.</summary>
public sealed class StandingPressureTests
{
    [Theory]
    [InlineData(15, 3.9)]
    [InlineData(20, 4.7)]
    [InlineData(25, 5.6)]
    [InlineData(30, 6.7)]
    [InlineData(35, 7.8)]
    [InlineData(40, 9.1)]
    [InlineData(45, 10.5)]
    public void A_clutch_that_does_not_pull_leaves_both_gauges_at_the_makers_base_pressure(
        double ambientC,
        double barGauge
    )
    {
        var model = new LoopModel(new LoopDesign());
        var result = model.Solve(
            LoopConditions.DoorsOpen(273.15 + ambientC, 0.5),
            0.6,
            new LoopFaults { ClutchSlip = 1 }
        );
        Assert.Equal(LoopState.Off, result.State);
        var readings = result.Readings!.Value;
        Assert.Equal(barGauge, (readings.LowSidePa - 101325) / 1e5, 0.11);
        Assert.Equal(readings.LowSidePa, readings.HighSidePa);
    }

    [Fact]
    public void The_standing_pressure_of_a_car_that_empties_falls_without_a_step()
    {
        var table = RefrigerantTables.For("R134a");
        double Stands(int grams) => StaticPressure.Refrigerant(table, new LoopDesign(), 298.15, grams * 1e-3, 0.12);
        var saturation = table.SaturationPressurePa(298.15);
        Assert.Equal(saturation, Stands(300), 1);
        Assert.True(Stands(20) < 0.5 * saturation);
        for (var grams = 22; grams <= 300; grams += 2)
            Assert.InRange(Stands(grams) - Stands(grams - 2), -1, 0.04 * saturation);
    }
}
