using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Findings.Diagnosing;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;

namespace Tightcold.Findings.Tests.WholeJobs;

/// <summary>What was told and what was seen belong to the car as it then was, and stand in the finding.</summary>
public sealed class ToldAndSeenTests
{
    private static readonly Effort Enough = new(40, 40, 5_000, 0.02);

    private static AJob Car() =>
        AJob.OnACar(("label-charge", "550 g"), ("compressor", "fixed"), ("device", "expansion valve"))
            .Holding(
                ("name", "A"),
                ("kind", "can"),
                ("refrigerant", "R-134a"),
                ("tare", "150 g"),
                ("gross-now", "900 g")
            )
            .Holding(
                ("name", "R"),
                ("kind", "recovery cylinder"),
                ("refrigerant", "R-134a"),
                ("tare", "8 kg"),
                ("water-capacity", "12 kg")
            )
            .At(0, "weather", ("ambient-temperature", "30 °C"), ("relative-humidity", "50 %"));

    private static AJob Read(AJob job, double minute, double low = 3.4, double high = 23) =>
        job.At(
            minute,
            "running-reading",
            ("low-side", FormattableString.Invariant($"{low} bar")),
            ("high-side", FormattableString.Invariant($"{high} bar")),
            ("engine-speed", "850 1/min"),
            ("blower", "full"),
            ("air-source", "fresh")
        );

    private static AJob Seen(AJob job, double minute, string observation) =>
        job.At(minute, EntryKinds.Sign, ("observation", observation));

    private static AJob Filled(AJob job, double minute) =>
        job.At(minute, "pump", ("action", "started"))
            .At(minute + 40, "pump", ("action", "stopped"))
            .At(minute + 41, "container-moved", ("container", "A"), ("action", "opened"), ("side", "low side"))
            .At(minute + 42, "scale-reading", ("container", "A"), ("gross", "900 g"))
            .At(minute + 60, "scale-reading", ("container", "A"), ("gross", "350 g"))
            .At(minute + 61, "container-moved", ("container", "A"), ("action", "disconnected"));

    private static DiagnosisEvidence Evidence(AJob job) => job.Picture(Enough).Evidence!.Evidence;

    [Fact]
    public void What_was_seen_and_told_before_a_repair_does_not_count_after_it()
    {
        var job = Seen(
            Read(Car().At(1, EntryKinds.Story, ("told", StoryWords.WarmAtIdle)), 10),
            11,
            "fan stands still"
        );
        Assert.Equal([Sign.FanStopped], Evidence(job).Signs);
        Assert.Equal(ReadingReason.WarmAtIdle, Evidence(job).Why);
        job.At(20, "recovery", ("container", "R"), ("gross-before", "9 kg"), ("gross-after", "9.5 kg"))
            .At(30, "opened", ("spot", "condenser"));
        // The oil that runs out is of the car that was read.
        Seen(job, 31, "metal in the oil");
        Assert.Equal([Sign.FanStopped, Sign.MetalInOil], Evidence(job).Signs);
        job.At(40, "seal-changed", ("spot", "condenser"), ("seal", "O-ring"));
        Seen(job, 41, "oil clean");
        Assert.Equal([Sign.FanStopped, Sign.MetalInOil], Evidence(job).Signs);
        Read(Filled(job, 50), 130, 2.0, 14);
        Assert.Empty(Evidence(job).Signs);
        Assert.Equal(ReadingReason.JustMendedAndWeighed, Evidence(job).Why);
        Assert.Equal(
            ReadingReason.CameBackAfterAWeek,
            Evidence(job.At(129, EntryKinds.Story, ("told", StoryWords.CameBack))).Why
        );
    }

    [Fact]
    public void Who_looked_twice_is_taken_at_the_last_look_and_a_struck_look_at_none()
    {
        var job = Seen(Seen(Read(Car(), 10), 11, "fan stands still"), 14, "fan runs");
        Assert.Equal([Sign.FanRuns], Evidence(job).Signs);
        var last = job.Entries[^1];
        job.Add(
            new(
                AJob.Id(500),
                EntryKinds.Struck,
                last.ObservedAt.AddMinutes(1),
                last.ObservedAt.AddMinutes(1),
                "tester",
                Jobs.Fields.FieldBag.Empty,
                last.Id,
                "another car"
            )
        );
        Assert.Equal([Sign.FanStopped], Evidence(job).Signs);
    }

    [Fact]
    public void The_order_of_looks_changes_nothing()
    {
        var one = Seen(Seen(Read(Car(), 10), 11, "fan runs"), 12, "belt slips");
        var other = Seen(Seen(Read(Car(), 10), 11, "belt slips"), 12, "fan runs");
        Assert.True(Evidence(one).SaysTheSameAs(Evidence(other)));
    }

    [Theory]
    [InlineData(StoryWords.WarmAtIdle, "cold on the road only")]
    [InlineData(StoryWords.WarmAfterTenMinutes, "cold at first, warm after ten minutes")]
    public void The_drivers_word_told_twice_is_one_witness_and_the_finding_says_so(string story, string observation)
    {
        var job = Seen(Read(Car().At(1, EntryKinds.Story, ("told", story)), 10), 11, observation);
        Assert.Empty(Evidence(job).Signs);
        Assert.Contains(Walk.Of(Step.WhatIsWrong, job.Picture(Enough)).Assumptions, assumption =>
            assumption.What.ToString().Contains("one witness", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_car_of_which_only_signs_are_known_is_weighed_by_them()
    {
        var job = Seen(Seen(Car(), 5, "hub stands still"), 6, "no voltage at the plug");
        var picture = job.Picture(Enough);
        Assert.Equal(Fault.NoVoltage, picture.Machine!.Answer.ByFault()[0].Alone.Faults.Single());
        var finding = Walk.Of(Step.WhatIsWrong, picture);
        Assert.Equal(2, finding.RestsOn.Length);
        Assert.Contains("no voltage at the plug speaks for", finding.Why.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_finding_says_which_way_and_how_far_a_sign_speaks_and_what_the_story_makes_of_it()
    {
        var job = Seen(Read(Car(), 10), 11, "fan stands still");
        var picture = job.Picture(Enough);
        var finding = Walk.Of(Step.WhatIsWrong, picture);
        var reason = picture.Machine!.Answer.Leading.SignReasons.Single();
        Assert.Matches(
            @"Seen: fan stands still speaks for condenser short of air or dirty.* \d+(\.\d)? to 1\.",
            finding.Why.ToString()
        );
        Assert.True(reason.Weight > Math.Log(3));
        Assert.Contains(finding.Table!.Rows[0], cell =>
            cell.ToString().Contains("fan stands still (", StringComparison.Ordinal)
        );
        Assert.Contains(finding.Assumptions, one =>
            one.What.ToString().StartsWith("Why it is here is not said", StringComparison.Ordinal)
        );
        job.At(1, EntryKinds.Story, ("told", StoryWords.BroughtInWarm));
        Assert.Contains(Walk.Of(Step.WhatIsWrong, job.Picture(Enough)).Assumptions, one =>
            one.What.ToString()
                .StartsWith("Brought in warm, as told: nothing wrong is taken at", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_car_that_looks_sound_is_told_what_that_would_still_hide()
    {
        var job = Read(Car().At(1, EntryKinds.Story, ("told", StoryWords.CheckUp)), 10, 1.9, 14.5);
        var picture = job.Picture(Enough);
        Assert.True(picture.Machine!.Answer.Leading.Hypothesis.IsNothingWrong);
        Assert.NotNull(picture.Machine.HiddenShortage);
        Assert.Contains(
            "only a scale tells",
            Walk.Of(Step.WhatIsWrong, picture).Why.ToString(),
            StringComparison.Ordinal
        );
        // Where something is wrong nothing is said of a sound verdict.
        Assert.Empty(Seen(Read(Car(), 10), 11, "fan stands still").Picture(Enough).Machine!.WouldHide);
    }

    [Fact]
    public void Readings_that_no_car_shows_are_none_of_these_and_the_one_that_fits_least_is_named()
    {
        // A cold vent beside pipes that are all hot: two clamps on the wrong pipe fit nothing.
        var job = Car()
            .At(
                10,
                "running-reading",
                ("low-side", "1.9 bar"),
                ("high-side", "14 bar"),
                ("engine-speed", "1500 1/min"),
                ("blower", "full"),
                ("air-source", "fresh"),
                ("vent-temperature", "11 °C"),
                ("suction-line-temperature", "60 °C"),
                ("liquid-line-temperature", "79 °C"),
                ("discharge-line-temperature", "80 °C")
            );
        var picture = job.Picture(Enough);
        var finding = Walk.Of(Step.WhatIsWrong, picture);
        Assert.NotNull(picture.Machine!.Answer.DoesNotFit);
        Assert.Contains("This reading does not fit:", finding.Why.ToString(), StringComparison.Ordinal);
        Assert.StartsWith("None of the faults weighed here", finding.Verdict.ToString(), StringComparison.Ordinal);
        Assert.NotEqual(Picture.Now.NowKind.MendTheFault, picture.Now.Kind);
    }

    [Fact]
    public void A_suggested_test_opens_the_form_that_takes_it_down_and_once_written_is_not_suggested_again()
    {
        var job = Read(Car(), 10, 4.5, 9.5);
        var tests = job.Picture(Enough).Machine!.Tests;
        var actions = tests.Select(test => (test.Kind, Action: TestWords.Action(test, 101_325))).ToArray();
        Assert.Contains(actions, one => one.Action.EntryKind == EntryKinds.Sign);
        foreach (var (_, action) in actions)
        {
            var schema = EntryKinds.Get(action.EntryKind!);
            Assert.All(action.Known, known => Assert.NotNull(schema.Find(known.Field)));
            if (action.EntryKind == EntryKinds.Sign)
                Assert.Contains(action.First, SignWords.Groups.Select(group => group.Name));
            else if (action.First is { } first)
                Assert.NotNull(schema.Find(first));
        }

        var looked = actions.First(one => one.Action.EntryKind == EntryKinds.Sign);
        Seen(job, 12, SignWords.Groups.Single(group => group.Name == looked.Action.First).Seen[0]);
        Assert.DoesNotContain(looked.Kind, job.Picture(Enough).Machine!.Tests.Select(test => test.Kind));
    }

    [Fact]
    public void The_complaint_asks_for_the_story_until_it_is_told()
    {
        var job = Car();
        Assert.Contains(job.Find(Step.ComplaintAndWeather).Next, next => next.EntryKind == EntryKinds.Story);
        job.At(1, EntryKinds.Story, ("told", StoryWords.WarmAtIdle));
        var finding = job.Find(Step.ComplaintAndWeather);
        Assert.DoesNotContain(finding.Next, next => next.EntryKind == EntryKinds.Story);
        Assert.Contains("works at speed, fails at idle", finding.Verdict.ToString(), StringComparison.Ordinal);
        Assert.NotNull(NowWords.Of(job.Picture()).Action);
    }
}
