using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Picture.Charge;
using Tightcold.Picture.Cold;
using Tightcold.Picture.Mass;
using Tightcold.Picture.Tight;
using Tightcold.Quantities;

namespace Tightcold.Findings.Tests.WholeJobs;

/// <summary>States of a circuit that must be right whatever else is written down: what is inside decides what is
/// said.</summary>
public sealed class StatesTests
{
    private static AJob Car() =>
        AJob.OnACar(
                ("label-charge", "550 g"),
                ("compressor", "variable"),
                ("device", "expansion valve"),
                ("internal-volume", "2.2 L"),
                ("oil-amount", "120 mL")
            )
            .Kit_(
                ("low-gauge-plus-minus", "0.1 bar"),
                ("high-gauge-plus-minus", "0.25 bar"),
                ("vacuum-gauge", "absolute"),
                ("leak-tests", "electronic detector, nitrogen, soap bubbles")
            )
            .Holding(
                ("name", "A"),
                ("kind", "can"),
                ("refrigerant", "R-134a"),
                ("net-as-sold", "300 g"),
                ("tare", "92 g")
            )
            .Holding(
                ("name", "B"),
                ("kind", "can"),
                ("refrigerant", "R-134a"),
                ("net-as-sold", "500 g"),
                ("tare", "128 g")
            )
            .At(
                0,
                "weather",
                ("ambient-temperature", "26 °C"),
                ("relative-humidity", "50 %"),
                ("station-pressure", "1005 mbar")
            );

    private static AJob Stands(AJob job, double minute, string low, string high) =>
        job.At(
            minute,
            "standing-reading",
            ("low-side", low),
            ("high-side", high),
            ("ambient-temperature", "26 °C"),
            ("condenser-temperature", "26 °C"),
            ("since-engine-ran", "10 h")
        );

    private static AJob Pumped(AJob job, double minute) =>
        job.At(minute, "pump", ("action", "started"))
            .At(
                minute + 40,
                "vacuum-reading",
                ("absolute-pressure", "0.4 mbar"),
                ("pump-valve", "open"),
                ("part-temperature", "26 °C")
            );

    private static AJob Held(AJob job, double minute)
    {
        foreach (var later in new[] { 0, 8, 16, 24, 32 })
            job.At(
                minute + later,
                "vacuum-reading",
                ("absolute-pressure", "0.4 mbar"),
                ("pump-valve", "shut"),
                ("part-temperature", "26 °C")
            );
        return job;
    }

    private static AJob Filled(AJob job, double minute) =>
        job.At(minute, "scale-reading", ("container", "B"), ("gross", "627 g"))
            .At(minute + 1, "container-moved", ("container", "B"), ("action", "opened"), ("side", "low side"))
            .At(minute + 9, "scale-reading", ("container", "B"), ("gross", "140 g"))
            .At(minute + 10, "container-moved", ("container", "B"), ("action", "disconnected"))
            .At(minute + 11, "scale-reading", ("container", "A"), ("gross", "391 g"))
            .At(minute + 12, "container-moved", ("container", "A"), ("action", "opened"), ("side", "low side"))
            .At(minute + 15, "scale-reading", ("container", "A"), ("gross", "320 g"))
            .At(minute + 16, "container-moved", ("container", "A"), ("action", "disconnected"));

    private static string Say(Phrase phrase) => phrase.Render(SiFormat.Instance);

    private static string All(JobPicture picture) =>
        string.Join(
            "\n",
            Walk.Of(picture)
                .SelectMany(finding => finding.Next.Select(next => Say(next.What)).Append(Say(finding.Verdict)))
        );

    [Theory]
    [InlineData("0 bar", "0 bar")]
    [InlineData("-0.3 bar", "-0.2 bar")]
    public void A_car_that_comes_without_pressure_is_open_to_air_and_gets_one_finding_and_one_thing_to_do(
        string low,
        string high
    )
    {
        var picture = Stands(Car(), 2, low, high).Picture();
        Assert.Equal(StandingSays.OpenToAir, picture.Came.Says);
        Assert.Equal(NowKind.FindTheHole, picture.Now.Kind);
        Assert.Equal(ChargeFrom.None, picture.Charge.From);
        var findings = Walk.Of(picture);
        // Nothing of a compressor that runs, of a recovery, of a charge near the label.
        Assert.DoesNotContain("run it", All(picture), StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain(findings, finding =>
            finding.Next.Any(next => next.Does is Doing.RunsCompressor or Doing.TakesOut or Doing.FillsIn)
        );
        Assert.DoesNotContain(findings, finding =>
            finding.Estimates.Any(estimate => estimate.Key is "charge" or "mass-left")
        );
        Assert.Single(findings.Where(finding => finding.Judgement == Judgement.Bad));
        Assert.Contains(
            "Nothing to recover",
            Say(findings.Single(finding => finding.Step == Step.Recover).Verdict),
            StringComparison.Ordinal
        );
        // The hole is found and mended: a new drier is asked for all the same.
        var mended = Stands(Car(), 2, low, high)
            .At(10, "leak-check", ("spot", "condenser"), ("test", "oil trace"), ("outcome", "clear leak"))
            .At(30, "part-changed", ("spot", "condenser"), ("part", "condenser"));
        Assert.Contains(mended.Find(Step.Mend).Missing, missing =>
            Say(missing).StartsWith("a new drier: the circuit stood open", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("nitrogen")]
    [InlineData("opened")]
    public void With_nitrogen_or_air_inside_the_next_step_is_the_pump_and_a_charge_is_asked_back_and_marked(
        string inside
    )
    {
        AJob Until() =>
            inside == "nitrogen"
                ? Car()
                    .At(
                        10,
                        "pressure-test",
                        ("gas", "dry nitrogen"),
                        ("pressure", "10 bar"),
                        ("gas-temperature", "26 °C")
                    )
                : Car().At(10, "opened", ("spot", "condenser")).At(20, "closed", ("spot", "condenser"));
        var before = Until().Picture();
        Assert.Equal(NowKind.PumpDown, before.Now.Kind);
        Assert.DoesNotContain(Walk.Of(before), finding => finding.Next.Any(next => next.Does == Doing.FillsIn));
        var fields = AJob.Bag(
            EntryKinds.Get(EntryKinds.ContainerMoved),
            ("container", "B"),
            ("action", "opened"),
            ("side", "low side")
        );
        Assert.Contains(
            inside == "nitrogen" ? "Nitrogen is inside" : "not pulled down since",
            Say(AskBack.Of(before, EntryKinds.ContainerMoved, fields)!),
            StringComparison.Ordinal
        );
        Assert.Null(AskBack.Of(Pumped(Until(), 30).Picture(), EntryKinds.ContainerMoved, fields));

        var filled = Filled(Until(), 40).Picture();
        Assert.Equal(NowKind.MixedWithForeign, filled.Now.Kind);
        Assert.True(filled.Now.IsUrgent);
        Assert.Equal(Judgement.Bad, Walk.Of(Step.WeighIn, filled).Judgement);
        Assert.Null(filled.Evidence);
    }

    [Fact]
    public void Empty_on_arrival_filled_and_read_again_the_ledger_loses_nothing()
    {
        var job = Stands(
            Filled(Held(Pumped(Stands(Car(), 2, "0 bar", "0 bar"), 30), 72), 110),
            200,
            "5.9 bar",
            "5.9 bar"
        );
        var mass = job.Picture().Mass;
        Assert.Equal(0, mass.CameInWithCarKg, 9);
        Assert.InRange(mass.LostKg, 0, 0.012);
        Assert.InRange(mass.SystemKg, 0.54, 0.56);
        Assert.Equal(mass.CameInKg, mass.AccountedKg, 9);
        // A reading after the filling never tells how the car came.
        Assert.Equal(StandingSays.OpenToAir, job.Picture().Came.Says);
    }

    [Theory]
    [InlineData("34 bar", "34 bar", Doubt.TooHigh)]
    [InlineData("15 bar", "2 bar", Doubt.ChangedOver)]
    public void A_standing_pressure_that_cannot_be_is_said_to_be_so_and_nothing_judges_from_it(
        string low,
        string high,
        Doubt doubt
    )
    {
        var picture = Stands(Car(), 2, low, high).Picture();
        Assert.Equal(doubt, Assert.Single(picture.Timeline.Doubted).Value);
        Assert.Equal((NowKind.ReadingCannotBe, Step.StandingPressure), (picture.Now.Kind, picture.Now.Step));
        Assert.Contains("cannot be", Say(Walk.Of(Step.StandingPressure, picture).Verdict), StringComparison.Ordinal);
        Assert.Equal(StandingSays.NotRead, picture.Came.Says);
        Assert.Null(picture.Evidence);
        Assert.False(picture.Mass.CameInKnown);
    }

    [Fact]
    public void Gauges_changed_over_with_the_engine_running_are_named_and_judged_by_nothing()
    {
        var picture = Car()
            .At(5, "running-reading", ("low-side", "14 bar"), ("high-side", "2 bar"), ("engine-speed", "1500 1/min"))
            .Picture();
        Assert.Equal(NowKind.ReadingCannotBe, picture.Now.Kind);
        Assert.Contains(
            "Hoses changed over",
            Say(Walk.Of(Step.RunningPressures, picture).Verdict),
            StringComparison.Ordinal
        );
        Assert.Null(picture.Machine);
    }

    [Fact]
    public void Mended_partly_or_with_oil_owing_nobody_is_sent_to_the_pump()
    {
        AJob Two() =>
            Car()
                .At(2, "leak-check", ("spot", "condenser"), ("test", "soap bubbles"), ("outcome", "clear leak"))
                .At(4, "leak-check", ("spot", "pressure switch"), ("test", "soap bubbles"), ("outcome", "clear leak"))
                .At(20, "opened", ("spot", "condenser"))
                .At(30, "part-changed", ("spot", "condenser"), ("part", "condenser"));
        var half = Two();
        Assert.Equal(
            (NowKind.MendLeaks, "pressure switch"),
            (half.Picture().Now.Kind, Assert.Single(half.Picture().Now.Where))
        );
        Assert.Equal(Judgement.Bad, half.Find(Step.Mend).Judgement);
        Assert.DoesNotContain(half.Find(Step.Mend).Next, next => next.EntryKind == EntryKinds.Pump);

        var dryOfOil = Two()
            .At(32, "seal-changed", ("spot", "pressure switch"), ("seal", "O-ring, HNBR"))
            .At(34, "closed", ("spot", "condenser"));
        Assert.Equal(NowKind.OilDue, dryOfOil.Picture().Now.Kind);
        Assert.NotEqual(Judgement.Good, dryOfOil.Find(Step.Mend).Judgement);
        Assert.Contains("Oil: ", Say(dryOfOil.Find(Step.Mend).Verdict), StringComparison.Ordinal);

        var whole = dryOfOil.At(40, "oil-moved", ("direction", "added"), ("amount", "25 mL"), ("oil-type", "PAG 46"));
        Assert.Equal(NowKind.PumpDown, whole.Picture().Now.Kind);
    }

    [Fact]
    public void A_purge_before_the_first_draw_counts_whole()
    {
        var job = Held(Pumped(Car(), 10), 52)
            .At(90, "scale-reading", ("container", "B"), ("gross", "627 g"))
            .At(91, "container-moved", ("container", "B"), ("action", "connected"), ("side", "low side"))
            .At(92, "purge", ("hose", "yellow"), ("method", "short burst of gas"), ("estimated-loss", "6 g"))
            .At(93, "container-moved", ("container", "B"), ("action", "opened"), ("side", "low side"))
            .At(100, "scale-reading", ("container", "B"), ("gross", "327 g"));
        var mass = job.Picture().Mass;
        Assert.Equal(0.006, mass.LostKg, 6);
        Assert.Equal(0.294, mass.SystemKg + mass.HosesKg, 6);
        Assert.Equal(mass.CameInKg, mass.AccountedKg, 9);
    }

    [Fact]
    public void What_runs_ends_when_a_later_entry_says_that_it_cannot_go_on()
    {
        var pumping = Pumped(Car(), 10);
        Assert.Equal(TimerKind.PumpingDown, Assert.Single(WorkTimers.Of(pumping.Picture())).Kind);
        var holding = Held(Pumped(Car(), 10), 52);
        Assert.Equal(TimerKind.LastOfTheHold, Assert.Single(WorkTimers.Of(holding.Picture())).Kind);
        // Nobody wrote that the pump was stopped, the hold over, the can shut: what came after says so.
        var giving = holding.At(90, "container-moved", ("container", "B"), ("action", "opened"), ("side", "low side"));
        Assert.Equal(
            (TimerKind.ContainerGives, "B"),
            Assert.Single(WorkTimers.Of(giving.Picture())) is var can ? (can.Kind, can.Where) : default
        );
        var recovered = giving.At(120, "pump", ("action", "started"));
        Assert.Equal(TimerKind.PumpingDown, Assert.Single(WorkTimers.Of(recovered.Picture())).Kind);
        Assert.Empty(WorkTimers.Of(recovered.At(130, "job-state", ("state", "closed")).Picture()));
    }

    [Fact]
    public void A_vent_on_a_hot_day_without_humidity_or_cabin_air_asks_for_them_before_it_says_cold()
    {
        AJob Hot(params (string, string)[] more) =>
            AJob.OnACar(("label-charge", "550 g"), ("compressor", "variable"), ("device", "expansion valve"))
                .At(
                    0,
                    "vent-reading",
                    [
                        ("vent-temperature", "6 °C"),
                        ("ambient-temperature", "36 °C"),
                        ("air-source", "recirculated"),
                        ("blower", "full"),
                        ("moving", "driving"),
                        ("since-start", "20 min"),
                        .. more,
                    ]
                );
        var lacking = Hot().Picture();
        Assert.Equal(ColdOutcome.AsksFirst, lacking.Cold!.Outcome);
        Assert.Equal(Judgement.CannotTell, Walk.Of(Step.ProveCold, lacking).Judgement);
        Assert.DoesNotContain("Proven cold", Say(Walk.Of(Step.ProveCold, lacking).Verdict), StringComparison.Ordinal);
        Assert.NotEqual(
            ColdOutcome.AsksFirst,
            Hot(("relative-humidity", "40 %"), ("cabin-temperature", "27 °C")).Picture().Cold!.Outcome
        );
    }

    [Fact]
    public void After_the_recovery_nobody_says_that_liquid_is_present()
    {
        var job = Stands(
            Car()
                .Holding(
                    ("name", "R"),
                    ("kind", "recovery cylinder"),
                    ("refrigerant", "R-134a"),
                    ("tare", "8 kg"),
                    ("water-capacity", "12 kg")
                ),
            2,
            "5.8 bar",
            "5.8 bar"
        );
        Assert.StartsWith("Liquid is present", Say(job.Find(Step.StandingPressure).Verdict), StringComparison.Ordinal);
        job.At(30, "recovery", ("container", "R"), ("gross-before", "9 kg"), ("gross-after", "9.4 kg"));
        Assert.StartsWith(
            "It came with liquid inside",
            Say(job.Find(Step.StandingPressure).Verdict),
            StringComparison.Ordinal
        );
        Assert.Empty(job.Find(Step.StandingPressure).Next);
    }

    [Fact]
    public void A_failed_nitrogen_test_never_stands_beside_a_circuit_that_is_called_tight()
    {
        var job = Car()
            .At(10, "pressure-test", ("gas", "dry nitrogen"), ("pressure", "15 bar"), ("gas-temperature", "26 °C"))
            .At(40, "pressure-test", ("gas", "dry nitrogen"), ("pressure", "12 bar"), ("gas-temperature", "26 °C"));
        var picture = Held(Pumped(job, 60), 102).Picture();
        Assert.Equal(TightOutcome.Leaks, picture.Tight.Outcome);
        Assert.True(picture.Tight.Odds < TightPicture.LikelyFrom);
        Assert.Equal(NowKind.FindTheLeak, picture.Now.Kind);
        Assert.DoesNotContain("Weigh in", All(picture), StringComparison.Ordinal);
    }

    [Fact]
    public void A_can_emptied_in_an_earlier_job_is_empty_in_the_next_plan_and_one_of_unknown_tare_is_not_silently_full()
    {
        var job = AJob.OnACar(("label-charge", "550 g"))
            .Holding(("name", "A"), ("kind", "can"), ("refrigerant", "R-134a"), ("net-as-sold", "300 g"))
            .Holding(("name", "B"), ("kind", "can"), ("refrigerant", "R-134a"), ("net-as-sold", "500 g"))
            .At(1, "pump", ("action", "started"))
            .At(60, "vacuum-reading", ("absolute-pressure", "0.5 mbar"), ("pump-valve", "shut"));
        var record = job.Record();
        var fresh = Walk.Of(Step.WeighIn, new JobPicture(record));
        Assert.Contains(fresh.Missing, missing =>
            Say(missing).Contains("whether A is still full", StringComparison.Ordinal)
            || Say(missing).Contains("whether B is still full", StringComparison.Ordinal)
        );

        var shelf = new JobPicture(record, shelf: [new ShelfContent("A", 0.008, 0.005, null, 3)]);
        Assert.DoesNotContain(shelf.WeighIn.Plan!.Steps, step => step.Container == "A" && step.DrawKg > 0.01);
        var unknown = Walk.Of(Step.WeighIn, new JobPicture(record, shelf: [new ShelfContent("A", null, 0, null, 3)]));
        Assert.Contains(unknown.Missing, missing =>
            Say(missing).StartsWith("how much is left in A, used in job 3", StringComparison.Ordinal)
        );
    }

    /// <summary>At the scale: what it shows, minutes after the last entry, and what is asked back; null where it is taken
    /// as it is.</summary>
    [Theory]
    [InlineData("A", "392 g", 5, null)]
    [InlineData("A", "330 g", 5, null)]
    [InlineData("A", "467 g", 5, "A got heavier by 0.076")]
    [InlineData("A", "200 g", 0.1, "nothing flows that fast")]
    [InlineData("B", "627 g", 1, "A moment ago A stood on the scale")]
    [InlineData("B", "627 g", 10, null)]
    public void A_scale_is_asked_back_for_what_it_cannot_show(string can, string gross, double minutes, string? asks)
    {
        var job = Pumped(Car(), 10)
            .At(60, "scale-reading", ("container", "A"), ("gross", "392 g"))
            .At(61, "container-moved", ("container", "A"), ("action", "connected"), ("side", "low side"))
            .At(62, "scale-reading", ("container", "A"), ("gross", "391 g"));
        var picture = job.Picture();
        var fields = AJob.Bag(EntryKinds.Get(EntryKinds.ScaleReading), ("container", can), ("gross", gross));
        var moment = picture.Record.Journal.Standing[^1].ObservedAt.AddMinutes(minutes);
        var asked = AskBack.AtTheScale(picture, EntryKinds.ScaleReading, fields, moment);
        if (asks is null)
            Assert.Null(asked);
        else
            Assert.Contains(asks, Say(asked!), StringComparison.Ordinal);
    }

    /// <summary>While something runs that only wants to be waited for, and not otherwise.</summary>
    [Fact]
    public void While_the_pump_runs_what_can_be_done_meanwhile_is_said()
    {
        var running = Car().At(10, "pump", ("action", "started")).Picture();
        Assert.Contains(Meanwhile.Of(running), action =>
            Say(action.What).Contains("on the scale", StringComparison.Ordinal)
        );
        Assert.InRange(Meanwhile.Of(running).Length, 1, 3);
        Assert.Empty(Meanwhile.Of(Car().Picture()));
    }
}
