using Tightcold.Procedures.Vacuum;

namespace Tightcold.Procedures.Tests.Reference;

public sealed class VacuumTests
{
    private const double MicronPa = 0.133322;

    // Worked example of the trade (rise arithmetic Q = V·dp/dt): 3 L, 100 to 600 micron in 10 minutes = 3.3e-4 Pa·m³/s.
    [Fact]
    public void A_rise_of_500_micron_in_ten_minutes_in_three_litres_is_the_handbooks_throughput()
    {
        var rise = RiseTest.Of([new(0, 100 * MicronPa, 5, 1, 298), new(600, 600 * MicronPa, 5, 1, 298)]);
        Assert.Equal(3.333e-4, rise.SlopePaPerS * 3e-3, 6);
        Assert.True(rise.IsRising);
    }

    // A vacuum maker's handbook: a 4 L tyre losing 1 bar in 30 days leaks 1.5e-4 Pa·m³/s; the same arithmetic.
    [Fact]
    public void The_handbooks_tyre_leaks_as_printed()
    {
        var rise = RiseTest.Of([new(0, 0, 100, 100, 293), new(30 * 86400.0, 1e5, 100, 100, 293)]);
        Assert.Equal(1.5e-4, rise.SlopePaPerS * 4e-3, 5);
    }

    // Water left inside: the pressure goes to a plateau and stays (trade: levels at 1000 to 2000 micron: wet, tight).
    [Fact]
    public void A_rise_that_tires_is_told_from_one_that_does_not()
    {
        VacuumReading Saturating(double minute) => new(minute * 60, 30 + 200 * (1 - Math.Exp(-minute / 8)), 10, 2, 298);
        VacuumReading Steady(double minute) => new(minute * 60, 30 + 6 * minute, 10, 2, 298);
        double[] minutes = [0, 8, 16, 24, 32];
        Assert.True(RiseTest.Of([.. minutes.Select(Saturating)]).LevelsOff);
        Assert.False(RiseTest.Of([.. minutes.Select(Steady)]).LevelsOff);
        Assert.True(RiseTest.Of([.. minutes.Select(Steady)]).IsRising);
    }

    [Fact]
    public void Without_temperatures_the_unknown_drift_widens_the_belief()
    {
        VacuumReading[] known = [new(0, 50_000, 100, 50, 298), new(1800, 50_200, 100, 50, 298)];
        VacuumReading[] blind = [.. known.Select(reading => reading with { TemperatureK = null })];
        Assert.True(RiseTest.Of(blind).SlopeSigmaPaPerS > 3 * RiseTest.Of(known).SlopeSigmaPaPerS);
    }

    // Hand-worked from the two flow laws for R-134a at 7 bar absolute: 7·√(102.03/28.96) = 13.1 and (49 − 1)·3.52·1.55 = 262.
    [Fact]
    public void Air_drawn_in_stands_for_13_to_262_times_its_mass_of_refrigerant()
    {
        var (least, most) = LeakEquivalent.RefrigerantPerAir(0.10203, 7e5, 1e5);
        Assert.Equal(13.1, least, 1);
        Assert.InRange(most, 261, 263);
    }

    // 1 mbar·L/s of air at 20 °C is 0.1 Pa·m³/s, 0.1·0.028965/(8.3145·293.15) = 1.188e-6 kg/s (ideal gas, hand-worked).
    [Fact]
    public void Throughput_of_air_becomes_its_mass_by_the_gas_law() =>
        Assert.Equal(1.188e-6, LeakEquivalent.AirKgPerS(0.1, 293.15), 9);
}
