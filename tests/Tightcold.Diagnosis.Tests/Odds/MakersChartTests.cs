using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;
using Tightcold.Studies.Faults;

namespace Tightcold.Diagnosis.Tests.Odds;

/// <summary>
/// Middles of what makers print for sound cars (service texts read as stored pages; all rows with titles and dates:
/// tools/Tightcold.Published/rows.csv, all results: docs/validation-published.md). The population was fitted to them,
/// so this holds the code; that it holds for makers it never saw is the tool's command left-out.
/// </summary>
public sealed class MakersChartTests
{
    private static readonly Effort Enough = new(40, 40, 5_000, 0.02);

    [Theory]
    [InlineData("coupe of 2010, idle, 25 °C", 25, 800, true, 1.90, 13.4, null)]
    [InlineData("coupe of 2010, idle, 40 °C", 40, 800, true, 3.25, 20.8, null)]
    [InlineData("many models of one maker, 1500 turns, 32.5 °C", 32.5, 1500, true, 2.0, 14.7, null)]
    [InlineData("small car of 1998, 1500 turns, fresh air, 26.7 °C", 26.7, 1500, false, 2.41, 12.2, 4.3)]
    [InlineData("off-road car of 2004, 1500 turns, 35 °C", 35, 1500, true, 2.65, 19.9, null)]
    [InlineData("compact car, idle, 30 °C", 30, 800, true, 2.9, 15.8, null)]
    [InlineData("pickup of 1997, 25 °C", 25, 1300, false, 1.31, 12.4, 7.5)]
    [InlineData("tractor of 2007, 1500 turns, 30 °C", 30, 1500, false, 1.75, 14.7, null)]
    public void What_makers_print_for_a_sound_car_is_called_sound_and_no_fault_is_sure(
        string car,
        double celsius,
        double rpm,
        bool recirculated,
        double low,
        double high,
        double? vent
    )
    {
        Assert.NotEmpty(car);
        var point = ACase.Point(celsius, rpm) with
        {
            HumiditySigma = 0.12,
            FreshShare = recirculated ? 0.05 : 1,
            Doors = DoorsAre.WindowsOpen,
        };
        point = point.Gauges(low, high);
        if (vent is { } cold)
            point = point.At(Channel.Vent, cold);
        var odds = CarScore.Marginal(Diagnoser.Diagnose(new(new("R134a")) { Points = [point] }, Enough, 7));
        Assert.Equal(Hypothesis.NothingWrong, odds.MaxBy(pair => pair.Value).Key);
        Assert.True(odds.Where(pair => pair.Key != Hypothesis.NothingWrong).All(pair => pair.Value < 0.8));
    }

    [Fact]
    public void The_population_is_read_back_as_it_is_shipped_and_refuses_what_is_none()
    {
        Assert.InRange(Population.Shipped["suction-set"].Level, 2.2e5, 3.1e5);
        Assert.True(Population.Shipped["condenser"].IsFactor);
        Assert.Contains(
            "no;number",
            Assert.Throws<FormatException>(() => Population.Parse("trait;level;spread;unit\nno;number;0;x")).Message,
            StringComparison.Ordinal
        );
    }
}
