using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;
using static Tightcold.Jobs.Tests.SomeEntries;

namespace Tightcold.Jobs.Tests.Unit;

public sealed class EntryRulesTests
{
    private static FieldValue.Text Words(string words) => new(words);

    private static FieldValue.Quantity Si(QuantityKind kind, double si, string typed) =>
        new(new Measure(kind, si), typed);

    private static FieldBag Bag(params (string Name, FieldValue Value)[] fields) =>
        fields.Aggregate(FieldBag.Empty, (bag, field) => bag.With(field.Name, field.Value));

    private static Entry Written(string kind, params (string Name, FieldValue Value)[] fields) =>
        new(new Guid("aaaaaaaa-0000-0000-0000-000000000001"), kind, Noon, Noon, "Ada", Bag(fields));

    private static readonly Container CanA = new(
        Bag(
            ("name", Words("A")),
            ("kind", Words(Container.Can)),
            ("refrigerant", Words("R-134a")),
            ("tare", Si(QuantityKind.Mass, 0.138, "138 g"))
        )
    );
    private static readonly Container CanB = new(
        Bag(("name", Words("B")), ("kind", Words(Container.Can)), ("refrigerant", Words("R-1234yf")))
    );
    private static readonly Container Bottle = new(
        Bag(
            ("name", Words("grey")),
            ("kind", Words(Container.RecoveryCylinder)),
            ("refrigerant", Words("R-134a")),
            ("water-capacity", Si(QuantityKind.Mass, 11.9, "11.9 kg"))
        )
    );

    private static JobRecord Job(params Entry[] entries) =>
        Record(JournalOf(entries), kits: [new Kit(Guid.Empty, Noon.AddDays(-1), FieldBag.Empty, [CanA, CanB, Bottle])]);

    private static IReadOnlyList<InputProblem> Check(Entry entry, AbsolutePressure? barometer = null) =>
        EntryRules.Check(Job(), entry, barometer);

    private static void RefusedFor(string field, string because, Entry entry, AbsolutePressure? barometer = null)
    {
        var problem = Assert.Single(Check(entry, barometer));
        Assert.Equal(field, problem.Field);
        Assert.Contains(because, problem.Sentence.ToString(), StringComparison.Ordinal);
    }

    private static (string, FieldValue) Ambient(double celsius) =>
        ("ambient-temperature", Si(QuantityKind.Temperature, celsius + 273.15, celsius + " °C"));

    [Fact]
    public void A_plain_standing_reading_is_taken() =>
        Assert.Empty(
            Check(
                Written(
                    EntryKinds.StandingReading,
                    ("low-side", Si(QuantityKind.GaugePressure, 4.7e5, "4.7 bar")),
                    Ambient(25)
                ),
                AbsolutePressure.FromPascals(101325)
            )
        );

    [Fact]
    public void Air_of_300_degrees_is_refused() =>
        RefusedFor("ambient-temperature", "is allowed", Written(EntryKinds.StandingReading, Ambient(300)));

    [Fact]
    public void More_vacuum_than_the_air_of_the_place_has_pressure_is_refused()
    {
        // 29 inHg is a good vacuum at sea level and impossible in a town at 1600 m, where the standard atmosphere has
        // 83.5 kPa (U.S. Standard Atmosphere 1976) or 24.7 inHg.
        var reading = Written(
            EntryKinds.VacuumReading,
            ("dial", Si(QuantityKind.GaugePressure, -98.2e3, "29 inHg")),
            ("pump-valve", Words("open"))
        );
        Assert.Empty(Check(reading, AbsolutePressure.FromPascals(101325)));
        RefusedFor("dial", "below perfect vacuum", reading, AbsolutePressure.FromPascals(83.5e3));
    }

    [Fact]
    public void A_can_lighter_than_its_tare_is_refused() =>
        RefusedFor(
            "gross",
            "less than its tare",
            Written(
                EntryKinds.ScaleReading,
                ("container", Words("A")),
                ("gross", Si(QuantityKind.Mass, 0.120, "120 g"))
            )
        );

    [Fact]
    public void A_can_that_the_kit_does_not_hold_is_refused() =>
        RefusedFor(
            "container",
            "the kit holds A, B, grey",
            Written(EntryKinds.ScaleReading, ("container", Words("Z")), ("gross", Si(QuantityKind.Mass, 0.4, "400 g")))
        );

    [Fact]
    public void A_joint_that_this_car_does_not_have_is_refused() =>
        RefusedFor(
            "spot",
            "spots of this car are",
            Written(
                EntryKinds.LeakCheck,
                ("spot", Words("left headlamp")),
                ("test", Words("soap bubbles")),
                ("outcome", Words("nothing"))
            )
        );

    [Theory]
    [InlineData("oxygen")]
    [InlineData("compressed air")]
    [InlineData("acetylene")]
    public void Testing_with_anything_but_nitrogen_is_refused(string gas) =>
        RefusedFor(
            "gas",
            "oil explodes with oxygen",
            Written(
                EntryKinds.PressureTest,
                ("gas", Words(gas)),
                ("pressure", Si(QuantityKind.GaugePressure, 1e6, "10 bar")),
                ("gas-temperature", Si(QuantityKind.Temperature, 298, "25 °C"))
            )
        );

    [Fact]
    public void A_nitrogen_test_that_can_burst_the_low_side_is_refused() =>
        RefusedFor(
            "pressure",
            "burst",
            Written(
                EntryKinds.PressureTest,
                ("gas", Words("dry nitrogen")),
                ("pressure", Si(QuantityKind.GaugePressure, 2.5e6, "25 bar")),
                ("gas-temperature", Si(QuantityKind.Temperature, 298, "25 °C"))
            )
        );

    [Fact]
    public void A_can_in_water_hot_enough_to_burst_it_is_refused() =>
        RefusedFor(
            "bath-temperature",
            "may burst",
            Written(
                EntryKinds.ContainerMoved,
                ("container", Words("A")),
                ("action", Words("opened")),
                ("side", Words("low side")),
                ("bath-temperature", Si(QuantityKind.Temperature, 273.15 + 60, "60 °C"))
            )
        );

    [Fact]
    public void A_can_on_the_high_side_is_refused() =>
        RefusedFor(
            "side",
            "burst",
            Written(
                EntryKinds.ContainerMoved,
                ("container", Words("A")),
                ("action", Words("opened")),
                ("side", Words("high side"))
            )
        );

    [Fact]
    public void Another_refrigerant_than_the_label_says_is_refused() =>
        RefusedFor(
            "container",
            "never mixed",
            Written(
                EntryKinds.ContainerMoved,
                ("container", Words("B")),
                ("action", Words("opened")),
                ("side", Words("low side"))
            )
        );

    [Fact]
    public void Refilling_a_throw_away_can_is_refused() =>
        RefusedFor(
            "container",
            "never refilled",
            Written(
                EntryKinds.Recovery,
                ("container", Words("A")),
                ("gross-before", Si(QuantityKind.Mass, 0.2, "200 g")),
                ("gross-after", Si(QuantityKind.Mass, 0.3, "300 g"))
            )
        );

    [Fact]
    public void A_cylinder_that_got_lighter_by_recovering_is_refused() =>
        RefusedFor(
            "gross-after",
            "cannot get lighter",
            Written(
                EntryKinds.Recovery,
                ("container", Words("grey")),
                ("gross-before", Si(QuantityKind.Mass, 8.2, "8.2 kg")),
                ("gross-after", Si(QuantityKind.Mass, 8.1, "8.1 kg"))
            )
        );

    [Fact]
    public void An_observation_from_the_future_is_refused() =>
        RefusedFor(
            "observed-at",
            "cannot lie after its writing",
            Written(EntryKinds.Note, ("text", Words("x"))) with
            {
                ObservedAt = Noon.AddHours(1),
            }
        );

    [Fact]
    public void A_clock_that_went_backwards_is_refused_and_two_devices_minutes_apart_are_not()
    {
        var first = Written(EntryKinds.Note, ("text", Words("first")));
        var later = first with
        {
            Id = new Guid("aaaaaaaa-0000-0000-0000-000000000002"),
            ObservedAt = Noon.AddHours(-3),
            WrittenAt = Noon.AddHours(-2),
        };
        var problem = Assert.Single(EntryRules.Check(Job(first), later, null));
        Assert.Equal("written-at", problem.Field);
        Assert.Contains("clock went backwards", problem.Sentence.ToString(), StringComparison.Ordinal);
        Assert.Empty(EntryRules.Check(Job(first), later with { WrittenAt = Noon.AddMinutes(-5) }, null));
    }

    [Fact]
    public void A_correction_needs_its_reason_and_an_entry_that_is_there()
    {
        var note = Written(EntryKinds.Note, ("text", Words("first")));
        var correction = note with { Id = Guid.Empty, Supersedes = note.Id };
        Assert.Equal("reason", Assert.Single(EntryRules.Check(Job(note), correction, null)).Field);
        Assert.Equal(
            "supersedes",
            Assert.Single(EntryRules.Check(Job(), correction with { Reason = "misread" }, null)).Field
        );
        Assert.Empty(EntryRules.Check(Job(note), correction with { Reason = "misread" }, null));
    }

    [Fact]
    public void An_unknown_kind_is_refused_with_the_known_ones() =>
        RefusedFor("kind", "standing-reading", Written("horoscope"));

    [Fact]
    public void A_target_charge_of_nothing_is_refused()
    {
        var car = Bag(
            ("label", Words("blue estate")),
            ("refrigerant", Words("R-134a")),
            ("label-charge", Si(QuantityKind.Mass, 0, "0 g"))
        );
        Assert.Equal("label-charge", Assert.Single(Cars.Car.Schema.Check(car)).Field);
    }

    [Fact]
    public void A_can_whose_masses_contradict_each_other_is_refused()
    {
        var can = new Container(CanA.Fields.With("gross-now", Si(QuantityKind.Mass, 0.100, "100 g")));
        Assert.Contains(
            "less than its own tare",
            Assert.Single(can.Check()).Sentence.ToString(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "water capacity",
            Assert.Single(new Container(Bottle.Fields.Without("water-capacity")).Check()).Sentence.ToString(),
            StringComparison.Ordinal
        );
    }
}
