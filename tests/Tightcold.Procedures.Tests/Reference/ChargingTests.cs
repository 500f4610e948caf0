using Tightcold.Procedures.Charging;
using Tightcold.Properties;

namespace Tightcold.Procedures.Tests.Reference;

public sealed class ChargingTests
{
    private static readonly Fluid R134a = FluidCatalog.Get("R134a");
    private const double PoundKg = 0.45359237;

    // Published training example of the rule without density: WC 47.6 lb → 38.1 lb net. With the liquid's specific
    // gravity 1.210 (R-134a), 1.095 (R-1234yf), 0.902 (R-152a) at 25 °C the three limits follow.
    [Theory]
    [InlineData("R134a", 1.210)]
    [InlineData("R1234yf", 1.095)]
    [InlineData("R152a", 0.902)]
    public void Recovery_cylinder_limit_is_80_percent_by_volume(string fluid, double specificGravity)
    {
        var most = CylinderFill.MostNetKg(FluidCatalog.Get(fluid), 47.6 * PoundKg) / PoundKg;
        Assert.Equal(38.08, most / specificGravity, 1);
    }

    // Liquid R-134a goes from 1206.7 to 1052.9 kg/m³ between 25 and 60 °C (handbook densities): 80 % full becomes 91.7
    // %.
    [Fact]
    public void A_cylinder_80_percent_full_at_25_C_is_91_7_percent_full_at_60_C()
    {
        var net = CylinderFill.MostNetKg(R134a, 10);
        Assert.Equal(0.80, CylinderFill.LiquidShare(R134a, 10, net, 298.15), 3);
        Assert.Equal(0.917, CylinderFill.LiquidShare(R134a, 10, net, 333.15), 3);
    }

    // A can of 0.34 L keeps 11 g equalised at 25 °C (0.34 L × 32.35 kg/m³) and 4.6 g drawn down to 2 bar gauge (14
    // kg/m³): the heel taken lies between.
    [Fact]
    public void The_heel_lies_between_a_can_drawn_down_and_one_equalised() =>
        Assert.InRange(ChargePlan.HeelKg(R134a, 0.34e-3, 298.15), 0.0046, 0.0110);

    // Hose of 1.8 m × 5 mm: 35.3 mL, as vapour 1.1 g at 25 °C (handbook density 32.35 kg/m³).
    [Fact]
    public void One_hose_of_vapour_is_about_a_gram()
    {
        var plan = ChargePlan.Make(
            R134a,
            0.3,
            [new("A", 0.34, 0.005, 0.437, 0.34e-3, true)],
            Math.PI / 4 * 25e-6 * 1.8,
            298.15
        );
        Assert.Equal(0.00114, plan.HoseKg, 5);
        Assert.Equal(0.437 - 0.3 - plan.HoseKg, plan.Steps[0].StopGrossKg!.Value, 9);
    }

    [Fact]
    public void The_plan_keeps_the_remainder_in_the_can_that_can_keep_it()
    {
        var plan = ChargePlan.Make(
            R134a,
            0.5,
            [new("sealing", 0.34, 0, 0.44, 0.34e-3, true), new("pierced", 0.34, 0, 0.44, 0.34e-3, false)],
            35e-6,
            298.15
        );
        Assert.Equal(["pierced", "sealing"], plan.Steps.Select(step => step.Container));
        Assert.True(plan.Steps[0].Emptied && !plan.Steps[1].Emptied);
        Assert.Equal(0, plan.ShortKg);
    }

    [Fact]
    public void Too_little_in_the_cans_is_said_with_the_amount()
    {
        var plan = ChargePlan.Make(R134a, 0.5, [new("A", 0.34, 0, null, 0.34e-3, true)], 35e-6, 298.15);
        Assert.InRange(plan.ShortKg, 0.16, 0.18);
        Assert.Null(plan.Steps[0].StopGrossKg);
    }
}
