using Tightcold.Jobs.Entries;
using Tightcold.Quantities;

namespace Tightcold.Findings.Tests.Steps;

/// <summary>Leaks, evacuation and hold as a person meets them.</summary>
public sealed class TightFindingTests
{
    private static AJob Car(params (string, string)[] more) =>
        AJob.OnACar([
            ("label-charge", "500 g"),
            ("device", "expansion valve"),
            ("internal-volume", "2.5 L"),
            ("oil-amount", "100 mL"),
            .. more,
        ]);

    private static string Say(Finding finding) => finding.Verdict.Render(SiFormat.Instance);

    private static Estimate Of(Finding finding, string key) =>
        finding.Estimates.Single(estimate => estimate.Key == key);

    private static AJob Lost(AJob job, string months) =>
        job.At(0, "earlier-charge", ("months-ago", months), ("filled", "full, by weight"))
            .At(
                1,
                "standing-reading",
                ("low-side", "1.0 bar"),
                ("ambient-temperature", "20 °C"),
                ("condenser-temperature", "20 °C"),
                ("since-engine-ran", "10 h")
            );

    [Fact]
    public void What_was_lost_over_a_remembered_time_becomes_the_rate_of_all_spots_together()
    {
        // By hand: about 460 g of 500 in one year, at a duty of 0.7: 660 g/yr at rest.
        var total = Of(Lost(Car(), "12").Find(Step.LeakSearch), "total-leak");
        Assert.InRange(LeakRate.FromGramsPerYear(660).KilogramsPerSecond, total.Low!.Value, total.High!.Value);
        Assert.True(Of(Lost(Car(), "48").Find(Step.LeakSearch), "total-leak").Median < 0.5 * total.Median);
    }

    [Fact]
    public void A_find_explains_a_slow_loss_and_leaves_another_to_be_found_for_a_fast_one()
    {
        double Remains(string months) =>
            Of(
                Lost(Car(), months)
                    .At(
                        5,
                        "leak-check",
                        ("spot", "condenser"),
                        ("test", "soap bubbles"),
                        ("outcome", "clear leak"),
                        ("system-pressure", "5 bar"),
                        ("time-spent", "3 min")
                    )
                    .Find(Step.LeakSearch),
                "another-remains"
            ).Median!.Value;
        Assert.True(Remains("30") < 0.9 * Remains("2"), $"{Remains("30")} {Remains("2")}");
    }

    [Fact]
    public void The_spot_table_tells_odds_and_the_next_check_names_a_test_of_this_kit()
    {
        var finding = Car()
            .Kit_(("leak-tests", "electronic detector"))
            .At(0, "standing-reading", ("low-side", "5.0 bar"), ("ambient-temperature", "22 °C"))
            .At(
                2,
                "leak-check",
                ("spot", "receiver-drier"),
                ("test", "electronic detector"),
                ("outcome", "nothing"),
                ("system-pressure", "5 bar"),
                ("time-spent", "2 min")
            )
            .Find(Step.LeakSearch);
        Assert.Equal(6, finding.Table!.Columns.Length);
        Assert.Contains(finding.Next, next => next.What.ToString().Contains("condenser", StringComparison.Ordinal));
        Assert.DoesNotContain(finding.Next, next =>
            next.What.ToString().Contains("nitrogen", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Residue_at_the_relief_device_names_the_test_that_separates_a_leak_from_one_opening()
    {
        var finding = Car(("dye", "yes"))
            .At(2, "leak-check", ("spot", "relief device"), ("test", "UV lamp"), ("outcome", "trace"))
            .Find(Step.LeakSearch);
        Assert.Contains(finding.Table!.Rows, row =>
            row[0].ToString() == "relief device" && row[3].ToString().Contains("one opening", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Before_pumping_the_time_that_is_enough_is_computed_for_this_pump()
    {
        double Needed(string cubicFeet, string ultimate = "20 micron") =>
            Of(
                Car().Kit_(("pump-free-air", cubicFeet), ("pump-ultimate", ultimate)).Find(Step.PumpDown),
                "pump-time"
            ).Median!.Value;
        Assert.InRange(Needed("2.5 cfm"), 300, 7200);
        Assert.Contains(
            "out of reach",
            Car().Kit_(("pump-ultimate", "2000 micron")).Find(Step.PumpDown).Why.ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_reading_that_hangs_far_above_the_expected_is_told_with_what_it_may_be()
    {
        var job = Car().At(0, "weather", ("ambient-temperature", "25 °C")).At(1, "pump", ("action", "started"));
        foreach (var minute in new[] { 20, 30, 40 })
            job.At(
                minute,
                "vacuum-reading",
                ("absolute-pressure", "9000 micron"),
                ("pump-valve", "open"),
                ("part-temperature", "25 °C")
            );
        Assert.Contains("hangs above", job.Find(Step.PumpDown).Why.ToString(), StringComparison.Ordinal);
        Assert.Contains(job.Find(Step.PumpDown).Cautions, caution =>
            caution.ToString().Contains("oil", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Cold_parts_ask_for_a_deeper_vacuum()
    {
        AJob At(string celsius) => Car().At(0, "weather", ("ambient-temperature", celsius));
        Assert.True(
            Of(At("-5 °C").Find(Step.PumpDown), "dry-below").High
                < 0.3 * Of(At("25 °C").Find(Step.PumpDown), "dry-below").High
        );
        Assert.Contains(
            At("-5 °C").Find(Step.PumpDown).Cautions.Concat([At("-5 °C").Find(Step.PumpDown).Why]),
            phrase => !phrase.IsEmpty
        );
    }

    private static AJob Held(
        AJob job,
        Func<double, double> micron,
        Func<double, double>? celsius,
        string? part = null,
        double from = 60
    )
    {
        foreach (var minute in new[] { 0, 8, 16, 24, 32 })
        {
            List<(string, string)> fields =
            [
                ("absolute-pressure", FormattableString.Invariant($"{micron(minute):0} micron")),
                ("pump-valve", "shut"),
            ];
            if (celsius is not null)
                fields.Add(("part-temperature", FormattableString.Invariant($"{celsius(minute):0.0} °C")));
            if (part is not null)
                fields.Add(("held-part", part));
            job.At(from + minute, "vacuum-reading", [.. fields]);
        }
        return job;
    }

    private static AJob Pumped() =>
        Car()
            .Kit_(
                ("vacuum-gauge", "absolute"),
                ("vacuum-gauge-step", "5 micron"),
                ("vacuum-gauge-plus-minus", "10 micron")
            )
            .At(0, "pump", ("action", "started"));

    [Fact]
    public void A_hold_in_rising_heat_is_not_called_a_leak()
    {
        // What oil and walls hold grows by 5 % a kelvin; eight kelvins of morning sun.
        var finding = Held(Pumped(), minute => 800 * Math.Exp(0.05 * minute / 4), minute => 20 + minute / 4)
            .Find(Step.Hold);
        Assert.DoesNotContain("It leaks", Say(finding), StringComparison.Ordinal);
    }

    [Fact]
    public void A_small_leak_in_falling_heat_is_not_called_tight()
    {
        var finding = Held(
                Pumped(),
                minute => 900 * Math.Exp(-0.05 * minute / 4) + 9 * minute,
                minute => 28 - minute / 4
            )
            .Find(Step.Hold);
        Assert.NotEqual(Judgement.Good, finding.Judgement);
    }

    [Fact]
    public void A_rise_that_the_hoses_alone_show_too_is_put_on_the_hoses()
    {
        var job = Held(Pumped(), minute => 300 + 150 * minute, _ => 20);
        Held(job, minute => 300 + 2000 * minute, _ => 20, "hoses and gauges alone", 100);
        Assert.Contains(
            "hose",
            Held(job, minute => 300 + 150 * minute, _ => 20, null, 140).Find(Step.Hold).Why.ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_hold_that_shows_a_large_leak_raises_the_odds_that_another_remains()
    {
        AJob Checked(AJob job)
        {
            var minute = 10.0;
            foreach (var spot in new[] { "condenser", "compressor shaft seal", "discharge hose", "suction hose" })
                job.At(
                    minute += 2,
                    "leak-check",
                    ("spot", spot),
                    ("test", "electronic detector"),
                    ("outcome", "nothing"),
                    ("system-pressure", "5 bar")
                );
            return job;
        }
        double Remains(Func<double, double> micron) =>
            Of(Held(Checked(Pumped()), micron, _ => 20).Find(Step.LeakSearch), "another-remains").Median!.Value;
        Assert.True(
            Remains(minute => 300 + 150 * minute) > 1.1 * Remains(_ => 300),
            $"{Remains(minute => 300 + 150 * minute)} {Remains(_ => 300)}"
        );
    }

    [Fact]
    public void Timers_live_in_the_journal_and_end_with_what_ends_them()
    {
        var job = Car().At(0, "opened", ("spot", "condenser"));
        Assert.Equal(
            (TimerKind.CircuitOpen, "condenser"),
            Assert.Single(WorkTimers.Of(job.Picture())) is var open ? (open.Kind, open.Where) : default
        );
        job.At(5, "closed", ("spot", "condenser")).At(10, "pump", ("action", "started"));
        var pumping = Assert.Single(WorkTimers.Of(job.Picture()));
        Assert.True(pumping.Due > pumping.Since);
        job.At(50, "vacuum-reading", ("absolute-pressure", "300 micron"), ("pump-valve", "shut"));
        Assert.Equal(AJob.Morning.AddMinutes(58), Assert.Single(WorkTimers.Of(job.Picture())).Due);
        job.At(90, "pump", ("action", "stopped"));
    }
}
