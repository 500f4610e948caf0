using Tightcold.SecondWorld.Leaks;
using Tightcold.SecondWorld.Nitrogen;
using Tightcold.SecondWorld.Search;
using Tightcold.SecondWorld.Vacuum;

namespace Tightcold.SecondWorld.Tests.Leaks;

/// <summary>The leak simulators: flow laws against outside figures, and directions that nobody disputes.</summary>
public sealed class LeakWorldTests
{
    [Theory]
    [InlineData(LeakKind.Molecular)]
    [InlineData(LeakKind.Laminar)]
    [InlineData(LeakKind.Orifice)]
    [InlineData(LeakKind.Lip)]
    public void A_leak_loses_its_own_rate_at_the_reference(LeakKind kind)
    {
        // A vacuum maker's handbook: 10 g of R-134a in 10 years is 7.1e-7 Pa·m³/s (at 0 °C); 7.75e-7 at 25 °C.
        var leak = new Leak(1, kind);
        Assert.InRange(leak.Flow(GasKind.Refrigerant, Leak.ReferencePa, Leak.AirPa, false), 7.6e-7, 7.9e-7);
    }

    [Fact]
    public void Fine_and_long_leaks_pass_little_air_into_a_vacuum()
    {
        // Poiseuille: (p1² - p2²) of air into vacuum against refrigerant outwards, times the viscosities' ratio.
        var wanted = 101325.0 * 101325 / (665e3 * 665e3 - 101325.0 * 101325) * 11.8 / 18.4;
        var laminar = new Leak(100, LeakKind.Laminar);
        var share =
            laminar.Flow(GasKind.Air, Leak.AirPa, 0, true)
            / laminar.Flow(GasKind.Refrigerant, Leak.ReferencePa, Leak.AirPa, false);
        Assert.Equal(wanted, share, 1e-6);
        var pores = new Leak(100, LeakKind.Molecular);
        Assert.True(pores.Flow(GasKind.Air, Leak.AirPa, 0, true) > laminar.Flow(GasKind.Air, Leak.AirPa, 0, true));
        var lip = new Leak(100, LeakKind.Lip, 0.02);
        Assert.True(lip.Flow(GasKind.Air, Leak.AirPa, 0, true) < 0.03 * laminar.Flow(GasKind.Air, Leak.AirPa, 0, true));
    }

    [Fact]
    public void A_choked_hole_does_not_care_how_deep_the_vacuum_is()
    {
        var hole = new Leak(1000, LeakKind.Orifice);
        Assert.Equal(
            hole.Flow(GasKind.Air, Leak.AirPa, 10, true),
            hole.Flow(GasKind.Air, Leak.AirPa, 20000, true),
            1e-12
        );
        Assert.True(hole.Flow(GasKind.Air, Leak.AirPa, 90000, true) < hole.Flow(GasKind.Air, Leak.AirPa, 10, true));
    }

    [Fact]
    public void More_leak_more_rise()
    {
        var holds = Enumerable
            .Range(1, 200)
            .Select(seed => VacuumWorld.Draw((ulong)seed))
            .Where(one => !one.DialOnly)
            .OrderBy(one => one.AirFlowPaM3PerS)
            .ToList();
        static double Rise(VacuumCase one) => (one.Hold[^1].ShownPa - one.Hold[0].ShownPa) / one.Hold[^1].Minute;
        var tight = holds.Take(20).Select(Rise).Order().ElementAt(10);
        var open = holds.TakeLast(20).Select(Rise).Order().ElementAt(10);
        Assert.True(open > 1.2 * tight);
    }

    [Fact]
    public void A_wet_hold_does_not_pass_the_pressure_of_water()
    {
        // 2339 Pa at 20 °C (handbook); what lies above is air, refrigerant and the gauge's own error.
        foreach (var seed in Enumerable.Range(1, 300))
        {
            var one = VacuumWorld.Draw((ulong)seed);
            if (one.FreeWaterG < 2 || one.DialOnly || one.AirFlowPaM3PerS > 2e-7 || one.OilRefrigerantG > 0.05)
                continue;
            Assert.InRange(one.Hold[^1].ShownPa, 50, 2339 * Math.Exp(0.065 * (one.DayC - 20)) * 1.6 + 300);
        }
    }

    [Fact]
    public void Warm_gas_after_filling_falls_without_any_leak()
    {
        var early = Enumerable
            .Range(1, 300)
            .Select(seed => NitrogenWorld.Draw((ulong)seed))
            .Where(one => one.Reads[0].Minute < 2 && one.LeakFallPa < 500)
            .ToList();
        Assert.NotEmpty(early);
        var falls = early.Select(one => one.Reads[0].ShownGaugePa - one.Reads[^1].ShownGaugePa).Order().ToList();
        Assert.True(falls[falls.Count / 2] > 5000);
    }

    [Fact]
    public void A_detector_finds_more_than_the_eye_and_soap_seldom_cries_wolf()
    {
        var (found, wrong) = (new Dictionary<Look, int>(), new Dictionary<Look, int>());
        foreach (var look in Enum.GetValues<Look>())
        {
            found[look] = wrong[look] = 0;
            for (ulong seed = 1; seed <= 200; seed++)
            {
                var car = SearchCar.Draw(seed);
                foreach (var spot in Enum.GetValues<Spot>())
                {
                    if (!car.Find(spot, look))
                        continue;
                    if (car.Leaks.Contains(spot))
                        found[look]++;
                    else
                        wrong[look]++;
                }
            }
        }
        Assert.True(found[Look.Detector] > found[Look.Eye]);
        Assert.True(wrong[Look.Soap] < wrong[Look.Eye]);
    }

    [Fact]
    public void Mean_loss_of_the_searched_cars_is_that_of_workshops()
    {
        // Cars with service lose some 80 g a year, parked ones 0.07 g a day; those that come to be searched lose more.
        // The median of leaking cars lies between 50 and 500 g/yr.
        var losses = Enumerable
            .Range(1, 400)
            .Select(seed => SearchCar.Draw((ulong)seed))
            .Where(car => car.Leaks.Count > 0)
            .Select(car => car.TotalGramPerYear)
            .Order()
            .ToList();
        Assert.InRange(losses[losses.Count / 2], 50, 500);
    }

    [Fact]
    public void The_same_seed_gives_the_same_hold_and_test()
    {
        Assert.Equal(VacuumWorld.Draw(5).Hold, VacuumWorld.Draw(5).Hold);
        Assert.Equal(NitrogenWorld.Draw(5).Reads, NitrogenWorld.Draw(5).Reads);
    }
}
