using Tightcold.Procedures.Hold;
using Tightcold.Procedures.Vacuum;

namespace Tightcold.Procedures.Tests.Reference;

public sealed class VacuumTests
{
    private const double MicronPa = 0.133322;

    private static HoldReading[] At(double startPa, params double[] seconds) =>
        [.. seconds.Select(second => new HoldReading(second, startPa, 1, 1, 293.15))];

    private static double RiseTo(double throughput, double volumeM3, double startPa, double seconds)
    {
        var curve = new HoldCurve(At(startPa, 0, seconds), new(volumeM3, 1e-4, 101_325, 293.15, 1));
        double[] rise = new double[2];
        curve.Leak(rise, throughput, volumeM3);
        return startPa + rise[1];
    }

    // Worked example of the trade (rise arithmetic Q = V·dp/dt): 3 L, 100 to 600 micron in 10 minutes = 3.3e-4 Pa·m³/s.
    [Fact]
    public void A_rise_of_500_micron_in_ten_minutes_in_three_litres_is_the_handbooks_throughput() =>
        Assert.Equal(600 * MicronPa, RiseTo(3.333e-4, 3e-3, 100 * MicronPa, 600), 1);

    // A leak into vacuum never passes the pressure of the air it comes from.
    [Fact]
    public void A_hole_left_long_enough_brings_the_system_to_the_barometer() =>
        Assert.InRange(RiseTo(1e-3, 2.5e-3, 50, 1e7), 101_300, 101_325.1);

    // Hand-worked from the two flow laws for R-134a at 7 bar absolute: 7·√(102.03/28.96) = 13.1 and (49 − 1)·3.52·1.55
    // = 262.
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
