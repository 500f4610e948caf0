using System.Globalization;
using Tightcold.App.Units;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Books;
using Tightcold.Picture.Leaks;
using Tightcold.Picture.Mass;
using Tightcold.Picture.Mend;
using Tightcold.Picture.Pressures;
using Tightcold.Quantities;

namespace Tightcold.Findings.Tests.Steps;

/// <summary>What each reading and each deed counts for, worked by hand: with the instrument and the weather of its own
/// moment, on its own side, and once.</summary>
public sealed class CountedOnceTests
{
    private const double SeaLevelPa = 101_325;

    private static AJob Car(params (string, string)[] more) =>
        AJob.OnACar([
            ("label-charge", "500 g"),
            ("device", "expansion valve"),
            ("internal-volume", "2.5 L"),
            ("oil-amount", "120 mL"),
            .. more,
        ]);

    private static AJob Rests(AJob job, double minute, string low, string? high = null) =>
        job.At(
            minute,
            "standing-reading",
            [
                ("low-side", low),
                .. high is null ? Array.Empty<(string, string)>() : [("high-side", high)],
                ("ambient-temperature", "25 °C"),
                ("since-engine-ran", "10 h"),
            ]
        );

    private static AbsoluteReading Read(JobRecord record, string kind, string field) =>
        Gauges.Read(record, record.Journal.OfKind(kind).First(), field)!.Value;

    private static string Say(Phrase phrase) =>
        phrase.Render(new ReaderUnits(UnitSystem.Metric, CultureInfo.InvariantCulture));

    [Fact]
    public void A_reading_is_judged_with_the_gauge_and_the_air_of_its_own_moment_not_of_a_later_one()
    {
        var job = Rests(Car().At(0, "weather", ("ambient-temperature", "25 °C"), ("altitude", "0 m")), 1, "5 bar")
            .At(600, "weather", ("ambient-temperature", "20 °C"), ("altitude", "2000 m"));
        var record = job.Record();
        var bought = record.Kits[0] with
        {
            Id = AJob.Id(9010),
            From = AJob.Morning.AddHours(8),
            Fields = AJob.Bag(Jobs.Kits.Kit.Schema, ("low-gauge-zero", "0.3 bar")),
        };
        record = record with { Kits = [.. record.Kits, bought] };
        Assert.Equal(5e5 + SeaLevelPa, Read(record, EntryKinds.StandingReading, "low-side").Pascals, 1);
    }

    [Fact]
    public void A_plus_minus_is_two_standard_deviations_and_two_gauges_that_disagree_are_no_surer_than_half_of_it()
    {
        var job = Rests(
            Car().Kit_(("low-gauge-plus-minus", "0.2 bar"), ("high-gauge-plus-minus", "0.2 bar")),
            1,
            "3 bar",
            "5 bar"
        );
        var record = job.Record();
        Assert.Equal(0.2e5 / 1.96, Read(record, EntryKinds.StandingReading, "low-side").GaugeSigmaPa, 6);
        var rest = RestingReading.Of(record, record.Journal.Standing[0])!;
        Assert.Equal(2e5, rest.ApartPa, 1);
        Assert.True(rest.Standing.PressureSigmaPa >= 1e5);
        Assert.False(rest.AtRest);
    }

    [Fact]
    public void Liquid_sits_in_the_coldest_part()
    {
        var record = Car()
            .At(
                1,
                "standing-reading",
                ("low-side", "5 bar"),
                ("ambient-temperature", "28 °C"),
                ("condenser-temperature", "21 °C"),
                ("cabin-temperature", "33 °C")
            )
            .Record();
        Assert.Equal(294.15, RestingReading.Of(record, record.Journal.Standing[0])!.Standing.TemperatureK, 6);
    }

    [Fact]
    public void A_swinging_needle_counts_in_its_middle()
    {
        double Boils(params (string, string)[] low) =>
            Car()
                .At(0, "weather", ("ambient-temperature", "30 °C"))
                .At(5, "running-reading", [.. low, ("high-side", "14 bar")])
                .Picture()
                .Running!.Low!.SaturationK!.Value;
        Assert.Equal(Boils(("low-side", "2 bar")), Boils(("low-side", "1 bar"), ("low-side-swing-to", "3 bar")), 6);
    }

    [Fact]
    public void Nitrogen_is_read_on_the_high_gauge_with_its_own_zero_and_filled_up_it_is_another_test()
    {
        AJob Reads(AJob job, double minute, string pressure) =>
            job.At(
                minute,
                "pressure-test",
                ("gas", "dry nitrogen"),
                ("pressure", pressure),
                ("gas-temperature", "22 °C")
            );
        var job = Car()
            .At(0, "weather", ("ambient-temperature", "22 °C"), ("altitude", "0 m"))
            .Kit_(("low-gauge-zero", "-0.3 bar"), ("high-gauge-zero", "0.2 bar"));
        Reads(Reads(Reads(Reads(job, 10, "10 bar"), 40, "9.8 bar"), 50, "12 bar"), 90, "11.9 bar");
        var tests = job.Picture().Tight.Belief.Evidence.Nitrogen;
        Assert.Equal([2, 2], tests.Select(test => test.Readings.Length));
        Assert.Equal(9.8e5 + SeaLevelPa, tests[0].Readings[0].PressurePa, 1);
        Assert.Equal(11.8e5 + SeaLevelPa, tests[1].Readings[0].PressurePa, 1);
    }

    [Fact]
    public void A_look_is_not_judged_with_a_pressure_of_last_week()
    {
        double? Pressure(double hours) =>
            Rests(Car(), 1, "5 bar")
                .At(
                    60 * hours,
                    "leak-check",
                    ("spot", "condenser"),
                    ("test", "electronic detector"),
                    ("outcome", "nothing")
                )
                .Picture()
                .Leaks.States.Single(state => state.Spot == "condenser")
                .Check!.Test.PressurePa;
        Assert.NotNull(Pressure(5));
        Assert.Null(Pressure(7 * 24));
    }

    [Fact]
    public void What_was_changed_before_the_leak_was_found_is_no_repair_of_it()
    {
        AJob Found(AJob job, double minute) =>
            job.At(
                minute,
                "leak-check",
                ("spot", "condenser"),
                ("test", "soap bubbles"),
                ("outcome", "clear leak"),
                ("system-pressure", "5 bar")
            );
        AJob Changed(AJob job, double minute) =>
            job.At(minute, "part-changed", ("spot", "condenser"), ("part", "condenser"));
        SpotState State(AJob job) => job.Picture().Leaks.States.Single(state => state.Spot == "condenser");
        Assert.True(State(Found(Changed(Car(), 10), 60)).Leaking);
        var mended = Changed(Found(Car(), 10), 60);
        Assert.True(State(mended).MendedUntested);
        Assert.StartsWith(
            "Mended, not yet checked again",
            Say(mended.Find(Step.LeakSearch).Verdict),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_lamp_on_a_car_that_never_had_dye_is_blind()
    {
        var looked = Rests(Car(("dye", "no")), 1, "5 bar")
            .At(5, "leak-check", ("spot", "condenser"), ("test", "UV lamp"), ("outcome", "nothing"));
        Assert.Contains(looked.Find(Step.LeakSearch).Table!.Rows, row =>
            row.Any(cell => Say(cell).Contains("never had dye", StringComparison.Ordinal))
        );
    }

    // By hand: a circuit that is topped up is taken for three quarters full then; 150 g went in later, and what is left
    // now is what the standing pressure says.
    [Fact]
    public void The_first_top_up_is_where_the_counting_begins_and_only_the_later_ones_are_added()
    {
        var picture = Rests(
                Car()
                    .At(0, "earlier-charge", ("months-ago", "24"), ("filled", "topped up"), ("mass", "100 g"))
                    .At(0.5, "earlier-charge", ("months-ago", "12"), ("filled", "topped up"), ("mass", "150 g")),
                1,
                "1 bar"
            )
            .Picture();
        var left = picture.Came.Left!.Value.MeanKg;
        Assert.Equal((0.75 * 0.5) + 0.150 - left, picture.Leaks.Losses.LostKg!.Value, 9);
    }

    // Ten minutes are the trade's patience with an open circuit; common practice.
    [Theory]
    [InlineData(5, null)]
    [InlineData(30, DrierWanted.OpenTooLong)]
    public void A_circuit_that_stood_open_for_half_an_hour_wants_a_new_drier(double minutes, DrierWanted? wanted) =>
        Assert.Equal(
            wanted,
            Car()
                .At(10, "opened", ("spot", "condenser"))
                .At(10 + minutes, "closed", ("spot", "condenser"))
                .Picture()
                .Mend.Drier.Wanted
        );

    [Fact]
    public void Valve_cores_that_were_taken_out_shorten_the_pumping()
    {
        double Seconds(string cores) =>
            Car()
                .At(0, "weather", ("ambient-temperature", "25 °C"), ("relative-humidity", "50 %"))
                .At(1, "pump", ("action", "started"), ("sides", "both sides"), ("cores", cores))
                .Picture()
                .Pump.Setup.PathConductance(1000);
        Assert.True(Seconds("removed") > 2 * Seconds("in"));
    }

    [Fact]
    public void Hoses_held_alone_are_no_hold_of_the_car()
    {
        var job = Car().At(0, "pump", ("action", "started"));
        foreach (var minute in new[] { 40, 48, 56, 64 })
            job.At(
                minute,
                "vacuum-reading",
                ("absolute-pressure", "0.4 mbar"),
                ("pump-valve", "shut"),
                ("held-part", "hoses and gauges alone")
            );
        Assert.Null(job.Picture().Hold);
    }

    [Fact]
    public void The_form_of_a_hold_comes_with_the_pumps_valve_shut()
    {
        var job = Car()
            .At(0, "pump", ("action", "started"))
            .At(90, "vacuum-reading", ("absolute-pressure", "0.3 mbar"), ("pump-valve", "open"))
            .At(91, "pump", ("action", "stopped"));
        var now = NowWords.Of(job.Picture());
        Assert.Equal(NowKind.HoldIt, now.Kind);
        Assert.Contains(("pump-valve", "shut"), now.Action!.Known);
    }

    [Fact]
    public void A_closed_job_rings_no_alarm_whatever_was_left_open_in_it()
    {
        var job = Car().At(0, "opened", ("spot", "condenser"));
        Assert.NotEmpty(WorkTimers.Of(job.Picture()));
        Assert.Empty(WorkTimers.Of(job.At(30, "job-state", ("state", "closed")).Picture()));
    }

    private static AJob Into(AJob job, string refrigerant, string after) =>
        job.Holding(
                ("name", "R"),
                ("kind", "recovery cylinder"),
                ("refrigerant", refrigerant),
                ("tare", "8 kg"),
                ("water-capacity", "12 kg"),
                ("gross-now", "9 kg")
            )
            .At(30, "recovery", ("container", "R"), ("gross-before", "9 kg"), ("gross-after", after));

    [Fact]
    public void A_cylinder_past_its_limit_is_the_first_thing_said_and_one_of_unknown_content_may_hold_less()
    {
        var full = Into(Car(), "R-134a", "22 kg");
        Assert.Contains("can burst", Say(full.Find(Step.Recover).Cautions[0]), StringComparison.Ordinal);
        Assert.Equal(NowKind.CylinderTooFull, full.Picture().Now.Kind);
        double May(string refrigerant) =>
            Into(Car(), refrigerant, "9.3 kg").Picture().Recovery!.Cylinders.Single().MayKg!.Value;
        Assert.Equal(0.75 * May("R-134a"), May("mixed or unknown"), 9);
    }

    // What oil and hoses keep back, 3 % and 10 g, belongs to the charge that was read.
    [Fact]
    public void A_recovery_tells_of_the_readings_before_it_what_was_inside_then()
    {
        var job = Into(
            Car(("compressor", "fixed"))
                .At(0, "weather", ("ambient-temperature", "30 °C"))
                .At(
                    5,
                    "running-reading",
                    ("low-side", "2 bar"),
                    ("high-side", "14 bar"),
                    ("engine-speed", "1500 1/min")
                ),
            "R-134a",
            "9.4 kg"
        );
        Assert.Equal((0.4 * 1.03) + 0.010, job.Picture().Evidence!.Evidence.Weighed!.Value.ChargeKg, 9);
    }

    [Fact]
    public void Far_too_much_stands_on_top_of_everything_and_a_can_of_another_refrigerant_in_no_plan()
    {
        AJob Evacuated(string refrigerant) =>
            Car()
                .Holding(
                    ("name", "A"),
                    ("kind", "cylinder"),
                    ("refrigerant", refrigerant),
                    ("net-as-sold", "2 kg"),
                    ("gross-now", "4 kg"),
                    ("tare", "2 kg")
                )
                .At(0, "weather", ("ambient-temperature", "25 °C"))
                .At(1, "pump", ("action", "started"));
        var plan = Evacuated("R-1234yf").Picture().WeighIn.Plan;
        Assert.DoesNotContain("A", plan?.Steps.Select(step => step.Container) ?? []);
        var over = Evacuated("R-134a")
            .At(50, "scale-reading", ("container", "A"), ("gross", "4 kg"))
            .At(51, "container-moved", ("container", "A"), ("action", "opened"), ("side", "low side"))
            .At(70, "scale-reading", ("container", "A"), ("gross", "3.3 kg"));
        Assert.Equal(NowKind.TooMuchIsIn, over.Picture().Now.Kind);
    }

    [Fact]
    public void A_can_that_gets_heavier_on_the_hose_is_asked_back()
    {
        var picture = Car()
            .Holding(
                ("name", "A"),
                ("kind", "can"),
                ("refrigerant", "R-134a"),
                ("tare", "97 g"),
                ("gross-now", "437 g")
            )
            .At(0, "pump", ("action", "started"))
            .At(40, "scale-reading", ("container", "A"), ("gross", "400 g"))
            .Picture();
        Phrase? Asked(string gross) =>
            AskBack.AtTheScale(
                picture,
                EntryKinds.ScaleReading,
                AJob.Bag(EntryKinds.Get(EntryKinds.ScaleReading), ("container", "A"), ("gross", gross)),
                AJob.Morning.AddMinutes(50)
            );
        Assert.Contains("got heavier", Say(Asked("440 g")!), StringComparison.Ordinal);
        Assert.Null(Asked("390 g"));
    }

    [Fact]
    public void A_half_used_can_on_the_shelf_holds_what_the_scale_said_less_its_tare()
    {
        var earlier = Car()
            .At(0, "scale-reading", ("container", "A"), ("gross", "437 g"))
            .At(5, "scale-reading", ("container", "A"), ("gross", "300 g"));
        var later = Car()
            .Holding(
                ("name", "A"),
                ("kind", "can"),
                ("refrigerant", "R-134a"),
                ("net-as-sold", "340 g"),
                ("tare", "97 g")
            )
            .Record();
        later = later with { Job = later.Job with { Number = 2, OpenedAt = AJob.Morning.AddDays(3) } };
        var left = Assert.Single(ShelfReader.Of(later, [new(1, earlier.Record().Journal)]));
        Assert.Equal(0.203, left.NetKg!.Value, 9);
    }

    private static JobRecord Ended(int number, DateTimeOffset at)
    {
        var record = Into(Car(), "R-134a", "9.3 kg").Record();
        return record with
        {
            Job = record.Job with { Number = number },
            Journal = Journal
                .Create(record.Journal.All.Select(entry => entry with { ObservedAt = at, WrittenAt = at }))
                .Journal!,
        };
    }

    [Fact]
    public void A_job_that_ended_with_the_stroke_of_the_new_year_stands_in_one_years_ledger()
    {
        var newYear = new DateTimeOffset(2027, 1, 1, 0, 0, 0, TimeSpan.Zero);
        JobPicture[] jobs = [new(Ended(1, newYear.AddSeconds(-1))), new(Ended(2, newYear))];
        Assert.Equal([1], RefrigerantLedger.Of(jobs, before: newYear).Lines.Select(line => line.Job).Distinct());
        Assert.Equal([2], RefrigerantLedger.Of(jobs, from: newYear).Lines.Select(line => line.Job).Distinct());
    }

    [Fact]
    public void A_car_leaks_from_when_it_went_to_when_it_came_not_while_it_stood_in_the_workshop()
    {
        JobRecord Visit(int number, double day)
        {
            var job = Into(Car(), "R-134a", "9.3 kg")
                .Holding(
                    ("name", "A"),
                    ("kind", "cylinder"),
                    ("refrigerant", "R-134a"),
                    ("net-as-sold", "5 kg"),
                    ("gross-now", "8 kg"),
                    ("tare", "3 kg")
                )
                .At(60, "pump", ("action", "started"))
                .At(100, "container-moved", ("container", "A"), ("action", "opened"), ("side", "low side"))
                .At(120, "scale-reading", ("container", "A"), ("gross", "7.5 kg"))
                // A part was waited for.
                .At(100 * 1440, "note", ("text", "fetched"));
            var record = job.Record();
            return record with
            {
                Job = record.Job with { Number = number },
                Journal = Journal
                    .Create(
                        record.Journal.All.Select(entry =>
                            entry with
                            {
                                ObservedAt = entry.ObservedAt.AddDays(day),
                                WrittenAt = entry.WrittenAt.AddDays(day),
                            }
                        )
                    )
                    .Journal!,
            };
        }
        var history = CarHistory.Of([new(Visit(1, 0)), new(Visit(2, 465.25))]);
        Assert.Equal(1, Assert.Single(history.Intervals).Years, 0.001);
    }

    [Fact]
    public void A_poor_clamp_says_nothing_of_a_starved_coil()
    {
        string Why(string suction) =>
            Say(
                Car()
                    .At(0, "weather", ("ambient-temperature", "30 °C"))
                    .At(
                        5,
                        "running-reading",
                        ("low-side", "2 bar"),
                        ("high-side", "14 bar"),
                        ("suction-line-temperature", suction),
                        ("liquid-line-temperature", "55 °C")
                    )
                    .Find(Step.RunningPressures)
                    .Why
            );
        Assert.Contains("starves", Why("16 °C"), StringComparison.Ordinal);
        Assert.DoesNotContain("starves", Why("16 °C ± 10 °C"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_car_is_told_by_the_weather_that_it_came_in()
    {
        var job = Car()
            .At(0, "weather", ("ambient-temperature", "31 °C"))
            .At(600, "weather", ("ambient-temperature", "12 °C"));
        Assert.Contains("31.0 °C", Say(job.Find(Step.ComplaintAndWeather).Verdict), StringComparison.Ordinal);
    }
}
