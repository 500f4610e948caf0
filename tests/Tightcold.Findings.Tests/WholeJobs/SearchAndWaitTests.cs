using Tightcold.App.Books;
using Tightcold.Findings.Now;
using Tightcold.Findings.Steps;
using Tightcold.Jobs.Entries;
using Tightcold.Picture.Leaks;

namespace Tightcold.Findings.Tests.WholeJobs;

/// <summary>One pass round the whole circuit in one entry, how long a repair should hold, and a job that
/// waits.</summary>
public sealed class SearchAndWaitTests
{
    private static AJob Car() =>
        AJob.OnACar(("label-charge", "550 g"), ("device", "expansion valve"))
            .At(0, "weather", ("ambient-temperature", "26 °C"), ("relative-humidity", "50 %"))
            .At(
                1,
                "standing-reading",
                ("low-side", "5.7 bar"),
                ("high-side", "5.7 bar"),
                ("ambient-temperature", "26 °C"),
                ("since-engine-ran", "10 h")
            );

    private static AJob Under(double gaugeBar) =>
        Car()
            .At(
                30,
                "pressure-test",
                ("gas", "dry nitrogen"),
                ("pressure", $"{gaugeBar} bar"),
                ("gas-temperature", "26 °C")
            );

    private static double Odds(JobPicture picture, string spot) =>
        picture.Leaks.Belief.Spots.Single(each => each.Spot.Name == spot).Leaking;

    private static SpotView View(JobPicture picture, string spot) =>
        SpotView.Of(picture.Leaks).Single(each => each.Name == spot);

    [Fact]
    public void Soap_on_all_joints_at_ten_bar_with_nothing_seen_is_one_entry_and_clears_every_spot_that_was_reached()
    {
        var job = Under(10);
        var before = job.Picture();
        var after = job.At(
                60,
                "leak-search",
                ("test", "nitrogen and soap"),
                ("not-reached", "evaporator"),
                ("time-spent", "20 min")
            )
            .Picture();
        Assert.True(Odds(after, "condenser") < 0.7 * Odds(before, "condenser"));
        Assert.Equal(Odds(before, "evaporator"), Odds(after, "evaporator"), 0.06);
        Assert.Equal(SpotStanding.Unchecked, View(after, "evaporator").Standing);
        Assert.NotNull(View(after, "condenser").State.Check);
        Assert.True(after.Leaks.Belief.AnotherRemains < before.Leaks.Belief.AnotherRemains);
    }

    [Fact]
    public void Where_the_search_showed_something_it_is_a_leak_found_and_elsewhere_it_is_not()
    {
        var picture = Under(10)
            .At(60, "leak-search", ("test", "nitrogen and soap"), ("showed", "condenser"), ("time-spent", "20 min"))
            .Picture();
        Assert.Equal(SpotStanding.Leaking, View(picture, "condenser").Standing);
        Assert.True(Odds(picture, "condenser") > 0.8);
        Assert.True(Odds(picture, "discharge hose") < 0.2);
        Assert.Contains("condenser", Said(Walk.Of(Step.LeakSearch, picture)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_search_takes_the_pressure_from_the_last_reading_and_says_so()
    {
        var picture = Car().At(40, "leak-search", ("test", "electronic detector"), ("time-spent", "30 min")).Picture();
        var check = View(picture, "condenser").State.Check!;
        Assert.True(check.PressureTaken);
        Assert.Equal(5.7e5 + 101_325, check.Test.PressurePa!.Value, 3e3);
        Assert.Contains(
            "as last read",
            Rendered(SpotWords.Remark(View(picture, "condenser").State)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_search_of_a_circuit_that_was_emptied_before_is_blind_and_moves_nothing()
    {
        var job = Car().At(20, "opened", ("spot", "condenser"));
        var before = job.Picture();
        var after = job.At(40, "leak-search", ("test", "electronic detector"), ("time-spent", "30 min")).Picture();
        Assert.True(View(after, "discharge hose").State.Blind);
        Assert.Equal(Odds(before, "discharge hose"), Odds(after, "discharge hose"), 0.01);
    }

    [Fact]
    public void The_longer_it_should_cool_the_less_sure_and_the_sentence_says_how_long()
    {
        double Sure(JobPicture picture) => picture.Tight.Odds;
        JobPicture Asked(string years) => Car().At(2, "aim", ("cools-for", years)).Picture();
        Assert.True(Sure(Asked("1")) >= Sure(Asked("2")));
        Assert.True(Sure(Asked("2")) >= Sure(Asked("6")));
        Assert.Contains("next summer", Rendered(TightWords.Sure(Asked("1").Tight)), StringComparison.Ordinal);
        Assert.Contains("in 6 summers", Rendered(TightWords.Sure(Asked("6").Tight)), StringComparison.Ordinal);
        var kit = Car().Kit_(("cools-for", "5")).Picture();
        Assert.Equal(5, kit.Tight.Years, 6);
    }

    [Fact]
    public void A_job_that_waits_names_the_day_and_the_calendar_has_it_and_a_reading_after_it_ends_the_wait()
    {
        var job = Car().At(60, "job-state", ("state", "waiting"), ("look-again-in", "7"));
        var waiting = job.Picture();
        Assert.Equal(Picture.Now.NowKind.LookAgain, waiting.Now.Kind);
        Assert.Contains("2026-07-08", Rendered(NowWords.Of(waiting).Waits), StringComparison.Ordinal);
        Assert.Equal("a look again on 2026-07-08", waiting.Record.WaitingFor);
        var calendar = CheckCalendar.Of(waiting);
        Assert.Contains("DTSTART;VALUE=DATE:20260708", calendar, StringComparison.Ordinal);
        Assert.Contains("\r\nEND:VEVENT\r\n", calendar, StringComparison.Ordinal);
        Assert.Equal(calendar, CheckCalendar.Of(job.Picture()));
        var looked = job.At(
                60 * 24 * 7,
                "standing-reading",
                ("low-side", "5.6 bar"),
                ("high-side", "5.6 bar"),
                ("ambient-temperature", "26 °C"),
                ("since-engine-ran", "10 h")
            )
            .Picture();
        Assert.NotEqual(Picture.Now.NowKind.LookAgain, looked.Now.Kind);
    }

    private static AJob FailedNitrogen() =>
        Under(15)
            .At(45, "pressure-test", ("gas", "dry nitrogen"), ("pressure", "13.5 bar"), ("gas-temperature", "26 °C"))
            .At(60, "pressure-test", ("gas", "dry nitrogen"), ("pressure", "12 bar"), ("gas-temperature", "26 °C"));

    [Fact]
    public void A_failed_test_that_is_struck_is_said_beside_the_verdict()
    {
        var failed = FailedNitrogen();
        Assert.False(failed.Picture().AFailedTestWasStruck);
        Assert.Contains("It leaks", Said(Walk.Of(Step.Hold, failed.Picture())), StringComparison.Ordinal);
        var after = failed
            .At(70, "pump", ("action", "started"))
            .At(
                130,
                "vacuum-reading",
                ("absolute-pressure", "0.3 mbar"),
                ("pump-valve", "shut"),
                ("part-temperature", "26 °C")
            )
            .At(
                160,
                "vacuum-reading",
                ("absolute-pressure", "0.3 mbar"),
                ("pump-valve", "shut"),
                ("part-temperature", "26 °C")
            );
        foreach (var fallen in failed.Entries.Where(entry => entry.Kind == "pressure-test").Skip(1).ToArray())
            after.Add(
                new(
                    AJob.Id(500 + fallen.Id.ToByteArray()[0]),
                    EntryKinds.Struck,
                    AJob.Morning.AddMinutes(170),
                    AJob.Morning.AddMinutes(170),
                    "tester",
                    Jobs.Fields.FieldBag.Empty,
                    fallen.Id,
                    "gauge was knocked"
                )
            );
        Assert.True(after.Picture().AFailedTestWasStruck);
        Assert.Contains("was struck", Said(Walk.Of(Step.Hold, after.Picture())), StringComparison.Ordinal);
    }

    [Fact]
    public void A_kit_with_a_dial_alone_is_given_the_way_that_can_prove_it()
    {
        var job = Car()
            .At(10, "opened", ("spot", "condenser"))
            .At(20, "closed", ("spot", "condenser"))
            .At(30, "pump", ("action", "started"));
        foreach (var minute in new[] { 70, 80, 90, 100 })
            job.At(
                minute,
                "vacuum-reading",
                ("dial", "-0.97 bar"),
                ("pump-valve", "shut"),
                ("part-temperature", "26 °C")
            );
        var hold = Walk.Of(Step.Hold, job.Picture());
        Assert.Contains("gross leaks only", Said(hold), StringComparison.Ordinal);
        Assert.Collection(
            hold.Next,
            nitrogen =>
            {
                Assert.Contains("nitrogen to", Rendered(nitrogen.What), StringComparison.Ordinal);
                Assert.Contains("bar", Rendered(nitrogen.What), StringComparison.Ordinal);
            },
            soap => Assert.Contains("soap on every joint", Rendered(soap.What), StringComparison.Ordinal),
            later => Assert.Contains("in a week", Rendered(later.What), StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_spot_that_this_car_does_not_have_is_named_in_one_sentence()
    {
        var job = Car();
        var entry = new Entry(
            AJob.Id(77),
            EntryKinds.LeakSearch,
            AJob.Morning.AddMinutes(5),
            AJob.Morning.AddMinutes(5),
            "tester",
            AJob.Bag(EntryKinds.Get("leak-search"), ("test", "soap bubbles"), ("not-reached", "condenser, left wheel"))
        );
        var problem = Assert.Single(EntryRules.Check(job.Record(), entry, null));
        Assert.Equal("not-reached", problem.Field);
        Assert.Equal("left wheel", problem.Value);
    }

    private static string Said(Finding finding) => Rendered(finding.Verdict);

    private static string Rendered(Quantities.Phrase phrase) =>
        phrase.Render(
            new App.Units.ReaderUnits(App.Units.UnitSystem.Metric, System.Globalization.CultureInfo.InvariantCulture)
        );
}
