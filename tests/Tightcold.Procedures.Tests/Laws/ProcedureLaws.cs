using CsCheck;
using Tightcold.Procedures.Charging;
using Tightcold.Procedures.Hold;
using Tightcold.Procedures.Standing;
using Tightcold.Properties;

namespace Tightcold.Procedures.Tests.Laws;

public sealed class ProcedureLaws
{
    private static readonly Fluid R134a = FluidCatalog.Get("R134a");

    [Fact]
    public void A_charge_plan_draws_what_is_needed_and_never_more_than_a_can_holds() =>
        Gen.Select(Gen.Double[0.05, 1.2], Gen.Double[0.05, 0.5].Array[1, 5], Gen.Double[5, 45], Gen.Bool)
            .Sample(
                (missing, nets, celsius, keeps) =>
                {
                    var stock = nets.Select((net, i) => new Stock($"can {i}", net, 0, net + 0.1, net / 1000, keeps))
                        .ToArray();
                    var plan = ChargePlan.Make(R134a, missing, stock, 35e-6, celsius + 273.15);
                    Assert.Equal(plan.NeedKg, plan.Steps.Sum(step => step.DrawKg) + plan.ShortKg, 9);
                    foreach (var step in plan.Steps)
                    {
                        var can = stock.Single(can => can.Name == step.Container);
                        Assert.InRange(step.DrawKg, 0, can.NetKg);
                        Assert.Equal(can.NetKg, step.DrawKg + step.LeftKg, 9);
                        Assert.Equal(can.GrossKg!.Value - step.DrawKg, step.StopGrossKg!.Value, 9);
                    }
                },
                iter: 300
            );

    [Fact]
    public void More_standing_pressure_never_means_less_refrigerant() =>
        Gen.Select(Gen.Double[0.5, 5], Gen.Double[0.01, 0.5], Gen.Double[0, 45])
            .Sample(
                (bar, more, celsius) =>
                {
                    double Mass(double pressureBar) =>
                        StandingMass
                            .VapourOnly(R134a, new(pressureBar * 1e5, 5000, celsius + 273.15, 1), 2.5e-3, 0.15, 120e-6)
                            .MeanKg;
                    Assert.True(Mass(bar + more) >= Mass(bar) - 1e-12);
                },
                iter: 300
            );

    [Fact]
    public void A_tight_system_in_changing_heat_is_not_called_a_leak() =>
        Gen.Select(Gen.Double[1000, 90_000], Gen.Double[-15, 15])
            .Sample(
                (pascals, drift) =>
                {
                    HoldReading[] readings =
                    [
                        .. Enumerable
                            .Range(0, 5)
                            .Select(i => new HoldReading(
                                i * 400,
                                Math.Round(pascals * (298 + drift * i / 4) / 298 / 20) * 20,
                                20,
                                15,
                                298 + drift * i / 4
                            )),
                    ];
                    var odds = HoldInference.Of(readings, new(2.5e-3, 1e-4, 101_325, 298, 3));
                    Assert.True(odds.LeakSeen < 0.3, $"{odds.LeakSeen}");
                    Assert.Equal(1, odds.Odds.Sum(), 9);
                },
                iter: 40
            );

    [Fact]
    public void A_longer_hold_sees_a_smaller_leak() =>
        Gen.Select(Gen.Double[300, 3000], Gen.Double[1.3, 4])
            .Sample(
                (seconds, longer) =>
                {
                    double Floor(double span) =>
                        HoldFloor.Of(
                            [new(0, 50, 5, 3, 298), new(span / 2, 50, 5, 3, 298), new(span, 50, 5, 3, 298)],
                            new(2.5e-3, 1e-4, 101_325, 298, 3)
                        );
                    Assert.True(Floor(seconds * longer) < Floor(seconds));
                },
                iter: 60
            );

    [Fact]
    public void Solution_in_oil_gives_back_its_own_pressure() =>
        Gen.Select(Gen.Double[0.02, 0.94], Gen.Double[0.3, 0.6])
            .Sample(
                (reduced, chi) =>
                {
                    var f = OilSolution.RefrigerantVolumeFraction(reduced, chi);
                    Assert.Equal(reduced, Math.Exp(Math.Log(f) + (1 - f) + chi * (1 - f) * (1 - f)), 9);
                },
                iter: 500
            );
}
