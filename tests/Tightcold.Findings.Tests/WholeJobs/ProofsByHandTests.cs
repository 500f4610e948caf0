using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Jobs.Entries;

namespace Tightcold.Findings.Tests.WholeJobs;

/// <summary>
/// The trade's classic proofs, written down by hand as entries of a journal: each must move its fault up three to one
/// where the trade calls it a proof, and its opposite must not. The directions are teaching, not the model's.
/// </summary>
public sealed class ProofsByHandTests
{
    private const double Proof = 3;

    // Odds to a few hundredths are enough for a direction.
    private static readonly Effort Enough = new(40, 40, 5_000, 0.02);

    private static AJob Car(string compressor = "fixed") =>
        AJob.OnACar(("label-charge", "550 g"), ("compressor", compressor), ("device", "expansion valve"))
            .At(0, "weather", ("ambient-temperature", "30 °C"), ("relative-humidity", "50 %"));

    private static AJob Gauges(
        AJob job,
        double low,
        double high,
        double rpm,
        params (string Field, string Text)[] more
    ) =>
        job.At(
            10,
            "running-reading",
            [
                ("low-side", FormattableString.Invariant($"{low} bar")),
                ("high-side", FormattableString.Invariant($"{high} bar")),
                ("engine-speed", FormattableString.Invariant($"{rpm} 1/min")),
                ("blower", "full"),
                ("air-source", "fresh"),
                .. more,
            ]
        );

    private static AJob Shows(string car) =>
        car switch
        {
            "warm vent" => Gauges(Car(), 2.0, 15, 1500, ("vent-temperature", "24 °C")),
            "both high" => Gauges(Car(), 3.4, 23, 850),
            "high and low" => Gauges(Car(), 4.5, 9.5, 850),
            "vacuum" => Gauges(Car(), -0.3, 8.5, 850),
            "low and low" => Gauges(Car(), 0.6, 9.5, 1500),
            "cold core" => Gauges(Car(), 0.9, 11, 1500, ("vent-temperature", "4 °C")),
            "at rest" => Gauges(Car(), 6.9, 7.0, 1500, ("clutch", "off")),
            _ => Gauges(Car("variable"), 4.6, 9.5, 1500),
        };

    private static double Odds(AJob job, Fault fault)
    {
        var p = Math.Clamp(
            job.Picture(Enough)
                .Machine!.Answer.Beliefs.Where(belief => belief.Hypothesis.Has(fault))
                .Sum(belief => belief.Odds),
            1e-6,
            1 - 1e-6
        );
        return p / (1 - p);
    }

    private static double Moved(string car, Fault fault, string kind, params (string, string)[] fields) =>
        Odds(Shows(car).At(12, kind, fields), fault) / Odds(Shows(car), fault);

    [Theory]
    [InlineData("warm vent", "vent colder with the heater hose pinched", "blend-door-leaks", Proof)]
    [InlineData("both high", "fan stands still", "condenser-air", Proof)]
    [InlineData("both high", "high side falls fast, then slowly", "air-inside", Proof)]
    [InlineData("both high", "no foam at lower revs", "overcharge", 1.3)]
    [InlineData("high and low", "both gauges equal at once", "compressor-worn", Proof)]
    [InlineData("high and low", "metal in the oil", "compressor-worn", Proof)]
    [InlineData("vacuum", "cold again after the rest", "moisture-ice", Proof)]
    [InlineData("vacuum", "cold, warm, cold again", "moisture-ice", Proof)]
    [InlineData("vacuum", "low needle swings", "moisture-ice", 2)]
    [InlineData("low and low", "cold behind the drier", "line-restricted", Proof)]
    [InlineData("low and low", "foam at lower revs", "undercharge", 1.2)]
    [InlineData("cold core", "air from the vents weak", "evaporator-air", Proof)]
    [InlineData("at rest", "no voltage at the plug", "no-voltage", Proof)]
    [InlineData("at rest", "voltage at the plug", "clutch-dead", Proof)]
    [InlineData("small stroke", "control valve not commanded", "control-not-asked", Proof)]
    [InlineData("small stroke", "control valve commanded", "control-stuck-low", 1.3)]
    [InlineData("small stroke", "belt slips", "clutch-slips", Proof)]
    public void A_proof_written_down_in_one_tap_moves_its_fault_up(
        string car,
        string observation,
        string fault,
        double atLeast
    )
    {
        var moved = Moved(car, Fault.Find(fault)!, EntryKinds.Sign, ("observation", observation));
        Assert.True(moved >= atLeast, FormattableString.Invariant($"{moved:0.00}"));
    }

    [Theory]
    [InlineData("warm vent", "vent the same with the heater hose pinched", "blend-door-leaks")]
    [InlineData("both high", "fan runs", "condenser-air")]
    [InlineData("high and low", "both gauges draw together slowly", "compressor-worn")]
    [InlineData("vacuum", "still warm after the rest", "moisture-ice")]
    [InlineData("low and low", "liquid line of one warmth", "line-restricted")]
    [InlineData("cold core", "air from the vents strong", "evaporator-air")]
    [InlineData("at rest", "voltage at the plug", "no-voltage")]
    public void Its_opposite_moves_it_down(string car, string observation, string fault)
    {
        var moved = Moved(car, Fault.Find(fault)!, EntryKinds.Sign, ("observation", observation));
        Assert.True(moved <= 1, FormattableString.Invariant($"{moved:0.00}"));
    }

    [Fact]
    public void A_shop_fan_written_as_the_aid_of_a_second_reading_accuses_the_cars_own_fan()
    {
        AJob Hot() => Gauges(Car(), 3.2, 25, 850);
        var aided = Hot()
            .At(
                15,
                "running-reading",
                ("low-side", "2.0 bar"),
                ("high-side", "12.5 bar"),
                ("engine-speed", "850 1/min"),
                ("blower", "full"),
                ("air-source", "fresh"),
                ("aid", "fan on condenser")
            );
        var moved = Odds(aided, Fault.CondenserAir) / Odds(Hot(), Fault.CondenserAir);
        Assert.True(moved >= Proof, FormattableString.Invariant($"{moved:0.00}"));
    }

    [Fact]
    public void A_fall_along_the_liquid_line_by_one_thermometer_accuses_the_line_and_none_acquits_it()
    {
        AJob Read(string before, string behind) =>
            Gauges(
                Car(),
                0.8,
                10,
                1500,
                ("line-part", "whole line"),
                ("line-before-temperature", before),
                ("line-behind-temperature", behind)
            );
        var without = Odds(Gauges(Car(), 0.8, 10, 1500), Fault.LineRestricted);
        Assert.True(Odds(Read("40 °C", "28 °C"), Fault.LineRestricted) >= Proof * without);
        Assert.True(Odds(Read("40 °C", "39.5 °C"), Fault.LineRestricted) < without);
    }

    [Fact]
    public void Both_ends_of_both_swings_the_minutes_the_bridge_the_windows_and_the_cabins_damp_reach_the_weighing()
    {
        var point = Gauges(
                Car(),
                1.2,
                11,
                900,
                ("low-side-swing-to", "2.8 bar"),
                ("high-side-swing-to", "15 bar"),
                ("since-start", "4 min"),
                ("switch-bridged", "yes"),
                ("doors", "windows open")
            )
            .Picture(Enough)
            .Evidence!.Evidence.Points.Single();
        Assert.Equal((4.0, true, DoorsAre.WindowsOpen), (point.MinutesRunning, point.SwitchBridged, point.Doors));
        Assert.Equal(
            [Channel.LowSide, Channel.LowSwingTop, Channel.HighSide, Channel.HighSwingTop],
            point.Readings.Select(reading => reading.Channel)
        );
        var inside = Car()
            .At(
                10,
                "running-reading",
                ("low-side", "1.8 bar"),
                ("high-side", "14 bar"),
                ("air-source", "recirculated"),
                ("cabin-temperature", "26 °C"),
                ("cabin-humidity", "40 %")
            )
            .Picture(Enough)
            .Evidence!.Evidence.Points.Single();
        Assert.Equal(0.4, inside.CabinRelativeHumidity!.Value, 9);
    }

    [Fact]
    public void Half_of_a_pair_of_numbers_is_asked_for_and_counts_as_nothing()
    {
        var evidence = Gauges(Car(), 1.2, 11, 900, ("line-before-temperature", "40 °C")).Picture(Enough).Evidence!;
        Assert.DoesNotContain(evidence.Evidence.Points[0].Readings, reading => reading.Channel == Channel.LineStep);
        Assert.Contains(evidence.Missing, missing =>
            missing.ToString().Contains("the other end of the liquid line", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("works at speed, fails at idle", "condenser-air", "both high")]
    [InlineData("warm after ten minutes", "moisture-ice", "vacuum")]
    [InlineData("came back after a week", "undercharge", "low and low")]
    public void A_story_makes_its_usual_fault_likelier_than_a_warm_car_of_no_story(
        string told,
        string fault,
        string car
    )
    {
        double With(string story) => Odds(Shows(car).At(1, EntryKinds.Story, ("told", story)), Fault.Find(fault)!);
        Assert.True(With(told) > With(StoryWords.BroughtInWarm));
    }

    [Fact]
    public void A_check_up_is_sooner_sound_than_a_car_of_no_story_and_one_brought_in_warm_is_not()
    {
        double Sound(string? story)
        {
            var job = Gauges(Car(), 2.8, 20, 1500);
            if (story is not null)
                job.At(1, EntryKinds.Story, ("told", story));
            return job.Picture(Enough).Machine!.Answer.OddsOf(Hypothesis.NothingWrong);
        }

        var notSaid = Sound(null);
        Assert.Equal(notSaid, Sound(StoryWords.NotSaid), 12);
        Assert.True(Sound(StoryWords.BroughtInWarm) < notSaid);
        Assert.True(Sound(StoryWords.CheckUp) > notSaid);
        Assert.True(Sound(StoryWords.JustMended) > notSaid);
    }

    [Fact]
    public void Every_observation_is_one_sign_and_those_of_a_group_are_outcomes_of_one_look()
    {
        Assert.Equal(Enum.GetValues<Sign>().Order(), SignWords.All.Select(SeenSigns.Read).Order());
        foreach (var group in SignWords.Groups)
            Assert.Equal(
                SignGroups.Of(SeenSigns.Read(group.Seen[0])).Order(),
                group.Seen.Select(SeenSigns.Read).Order()
            );
        Assert.All(SignWords.All, word => Assert.Equal(word, SeenSigns.Word(SeenSigns.Read(word))));
        Assert.All(Enum.GetValues<ReadingReason>(), why => Assert.Contains(Told.Word(why), StoryWords.All));
    }
}
