using CsCheck;
using Tightcold.Procedures.Charging;
using Tightcold.Properties;

namespace Tightcold.Procedures.Tests.Cans;

public sealed class ChargeConditionTests
{
    private static readonly Fluid R134a = FluidCatalog.Get("R134a");

    // Trade figures: a 0.34 L can keeps 4.6 g at 2 bar gauge (14 kg/m³) and 11 g equalised at 25 °C (32.35 kg/m³).
    [Fact]
    public void The_heel_is_that_of_the_pressure_it_was_drawn_down_to()
    {
        var running = new ChargeConditions(298.15, 3.013e5, false, 0, 0.002).Heel(R134a, 0.34e-3);
        Assert.Equal(running.LeastKg, running.MostKg);
        Assert.Equal(0.0046, running.LeastKg, 3e-4);
        Assert.Equal(0.0110, new ChargeConditions(298.15, 7e5, false, 0, 0.002).Heel(R134a, 0.34e-3).MostKg, 1e-4);
        var unknown = new ChargeConditions(298.15, null, false, 0, 0.002).Heel(R134a, 0.34e-3);
        Assert.True(unknown.LeastKg < running.LeastKg && unknown.MostKg > running.MostKg);
    }

    // Trade figures at 25 °C: hose of 1.8 m × 5 mm, 35.3 mL: 42.6 g of liquid R-134a, 1.1 g of vapour; 38.6 and 1.3 g
    // of R-1234yf.
    [Theory]
    [InlineData("R134a", 0.0426, 0.00114)]
    [InlineData("R1234yf", 0.0386, 0.00134)]
    public void A_hose_holds_what_the_trade_says(string name, double liquidKg, double vapourKg)
    {
        var fluid = FluidCatalog.Get(name);
        var volume = Math.PI / 4 * 25e-6 * 1.8;
        Assert.Equal(liquidKg, new ChargeConditions(298.15, 9e5, true, 0, 0.002).Hose(fluid, volume).MostKg, 1e-4);
        Assert.Equal(vapourKg, new ChargeConditions(298.15, 9e5, false, 0, 0.002).Hose(fluid, volume).MostKg, 3e-5);
    }

    [Fact]
    public void A_burst_through_each_hose_is_planned_for()
    {
        Stock[] stock = [new("A", 0.34, 0.005, 0.437, 0.34e-3, true), new("B", 0.34, 0.005, 0.437, 0.34e-3, true)];
        var without = ChargePlan.Make(R134a, 0.5, stock, 35e-6, new ChargeConditions(298.15, 3e5, false, 0, 0.002));
        var with = ChargePlan.Make(
            R134a,
            0.5,
            stock,
            35e-6,
            new ChargeConditions(298.15, 3e5, false, ChargeConditions.BurstKg, 0.002)
        );
        Assert.Equal(without.NeedKg + 0.004, with.NeedKg, 9);
        Assert.True(with.SigmaKg > without.SigmaKg);
        Assert.Equal(with.NeedKg, with.Steps.Sum(step => step.DrawKg), 9);
    }

    // Whatever stands on the shelf: what leaves the cans is the need or all they can give; nobody gives more than it
    // has.
    [Fact]
    public void Any_plan_closes_its_masses_and_wastes_no_more_than_any_single_can_plan()
    {
        Gen.Select(Gen.Double[0.05, 1.2], Gen.Double[0.02, 0.9].Array[1, 6], Gen.Double[1.5e5, 6e5])
            .Sample(
                (missing, nets, lowPa) =>
                {
                    Stock[] stock =
                    [
                        .. nets.Select((net, i) => new Stock($"{i}", net, 0.005, net + 0.1, net * 1.1e-3, i % 2 == 0)),
                    ];
                    var plan = ChargePlan.Make(
                        R134a,
                        missing,
                        stock,
                        35e-6,
                        new ChargeConditions(298.15, lowPa, false, 0.002, 0.002)
                    );
                    Assert.Equal(plan.NeedKg, plan.Steps.Sum(step => step.DrawKg) + plan.ShortKg, 9);
                    foreach (var step in plan.Steps)
                    {
                        Assert.True(step.DrawKg >= 0 && step.LeftKg >= -1e-12);
                        Assert.Equal(
                            stock.Single(member => member.Name == step.Container).GrossKg!.Value - step.DrawKg,
                            step.StopGrossKg!.Value,
                            9
                        );
                    }
                },
                iter: 300,
                threads: 1
            );
    }

    // 80 % at 25 °C is 91.7 % at 60 °C (trade figure); liquid R-134a fills the cylinder where its density has fallen to
    // 0.8 × 1206.7 = 965 kg/m³: handbook, 76 to 78 °C.
    [Fact]
    public void A_cylinder_filled_by_the_rule_is_full_to_the_last_corner_near_77_C()
    {
        var net = CylinderFill.MostNetKg(R134a, 10);
        Assert.InRange(CylinderFill.FullAtK(R134a, 10, net)!.Value - 273.15, 74, 80);
        Assert.Null(CylinderFill.FullAtK(R134a, 10, 0.5 * net));
        Assert.True(CylinderFill.MostNetKg(R134a, 10, 323.15) < net);
        Assert.InRange(
            CylinderFill.FieldRuleKg(10) / CylinderFill.MostNetKg(FluidCatalog.Get("R152a"), 10),
            1.10,
            1.12
        );
    }

    [Fact]
    public void Overshoot_is_told_with_its_chance_and_what_must_come_out()
    {
        Assert.True(Overshoot.Of(0.60, 0.006, 0.5, 0.02).MustStop);
        Assert.False(Overshoot.Of(0.50, 0.008, 0.5, 0.02).MustStop);
        Assert.Equal(0.1, Overshoot.Of(0.60, 0.006, 0.5, 0.02).TakeOutKg, 9);
        Assert.Throws<ArgumentOutOfRangeException>(() => Overshoot.Of(double.NaN, 0.01, 0.5, 0.02));
    }
}
