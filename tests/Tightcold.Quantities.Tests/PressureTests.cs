using CsCheck;

namespace Tightcold.Quantities.Tests;

public sealed class PressureTests
{
    private static readonly AbsolutePressure SeaLevel = AbsolutePressure.FromPascals(101_325);

    private static readonly Gen<double> Barometer = Gen.Double[50e3, 110e3];

    [Fact]
    public void From_absolute_to_gauge_and_back_is_where_it_began() =>
        Gen.Select(Gen.Double[0, 4e6], Barometer)
            .Sample(
                (pascals, air) =>
                {
                    var ambient = AbsolutePressure.FromPascals(air);
                    var back = AbsolutePressure.FromPascals(pascals).ToGauge(ambient).ToAbsolute(ambient);
                    Assert.Equal(pascals, back.Pascals, 1e-9);
                }
            );

    [Fact]
    public void From_gauge_to_absolute_and_back_is_where_it_began_down_to_vacuum() =>
        Gen.Select(Gen.Double[0, 1], Barometer)
            .Sample(
                (share, air) =>
                {
                    var ambient = AbsolutePressure.FromPascals(air);
                    var gauge = GaugePressure.FromPascals(4e6 * share - air * (1 - share));
                    Assert.Equal(gauge.Pascals, gauge.ToAbsolute(ambient).ToGauge(ambient).Pascals, 1e-9);
                }
            );

    // The normal atmosphere of the SI: 101 325 Pa by definition; a gauge open to it reads nothing.
    [Fact]
    public void An_open_gauge_reads_nothing_and_vacuum_reads_the_whole_barometer()
    {
        Assert.Equal(0, SeaLevel.ToGauge(SeaLevel).Pascals);
        Assert.Equal(-101_325, default(AbsolutePressure).ToGauge(SeaLevel).Pascals);
        Assert.Equal(101_325, default(GaugePressure).ToAbsolute(SeaLevel).Pascals);
    }

    // 68 psi (6 894.757 Pa each, to the digits of a handbook) at sea level: 468.8 kPa on the gauge, 570.2 kPa absolute.
    [Fact]
    public void A_low_side_at_rest_becomes_the_absolute_pressure_that_a_table_is_read_at()
    {
        var gauge = GaugePressure.FromPascals(68 * 6894.757);
        Assert.Equal(570_168, gauge.ToAbsolute(SeaLevel).Pascals, 1.0);
        // The same dial at 1600 m, where the standard atmosphere has 83.5 kPa, means 17.8 kPa less.
        Assert.Equal(552_343, gauge.ToAbsolute(AbsolutePressure.FromPascals(83_500)).Pascals, 1.0);
    }

    [Fact]
    public void Less_than_vacuum_is_refused_wherever_it_would_arise() =>
        Gen.Select(Barometer, Gen.Double[1e-3, 1e5])
            .Sample(
                (air, below) =>
                {
                    var ambient = AbsolutePressure.FromPascals(air);
                    Assert.Throws<ArgumentOutOfRangeException>(() =>
                        GaugePressure.FromPascals(-air - below).ToAbsolute(ambient)
                    );
                    Assert.Throws<ArgumentOutOfRangeException>(() => ambient.Plus(-air - below));
                }
            );

    [Fact]
    public void Higher_by_so_much_is_added() => Assert.Equal(101_425, SeaLevel.Plus(100).Pascals);
}
