namespace Tightcold.Findings.Tests.Steps;

/// <summary>The measured cycle against a textbook's: Çengel and Boles, Thermodynamics, example 11-2 (R-134a; from
/// memory, page not seen): in at 0.14 MPa and -10 °C, out at 0.80 MPa and 50 °C, liquid at 26 °C, 0.05 kg/s: 7.93 kW
/// taken up, 2.02 kW put in. Tables of that edition and ours differ by up to 0.5 % of these differences.</summary>
public sealed class MeasuredCycleTests
{
    // 140 and 800 kPa absolute at sea level (101.325 kPa).
    private static AJob Running(params (string, string)[] lines) =>
        AJob.OnACar(("label-charge", "500 g"))
            .At(0, "weather", ("ambient-temperature", "25 °C"), ("station-pressure", "1013.25 hPa"))
            .At(5, "running-reading", [("low-side", "38.675 kPa"), ("high-side", "698.675 kPa"), .. lines]);

    [Fact]
    public void Enthalpies_between_the_corners_are_those_of_the_textbooks_cycle()
    {
        var cycle = MeasuredCycle.Of(
            Running(
                    ("suction-line-temperature", "-10 °C"),
                    ("discharge-line-temperature", "50 °C"),
                    ("liquid-line-temperature", "26 °C")
                )
                .Picture()
        )!;
        var h = cycle.Corners.Select(corner => corner.EnthalpyJPerKg / 1e3).ToArray();
        Assert.InRange(h[0] - h[3], 7.93 / 0.05 * 0.995, 7.93 / 0.05 * 1.005);
        Assert.InRange(h[1] - h[0], 2.02 / 0.05 * 0.99, 2.02 / 0.05 * 1.01);
        Assert.Equal(h[2], h[3], 9);
        Assert.Equal([true, true, true, false], cycle.Corners.Select(corner => corner.Read));
    }

    [Fact]
    public void What_was_not_read_is_marked_as_taken_and_one_gauge_alone_draws_nothing()
    {
        Assert.All(MeasuredCycle.Of(Running().Picture())!.Corners, corner => Assert.False(corner.Read));
        Assert.Null(MeasuredCycle.Of(AJob.OnACar().At(5, "running-reading", ("low-side", "1 bar")).Picture()));
        // Engine off: both gauges stand together, and there is no cycle.
        Assert.Null(
            MeasuredCycle.Of(
                AJob.OnACar().At(5, "running-reading", ("low-side", "5 bar"), ("high-side", "5 bar")).Picture()
            )
        );
    }
}
