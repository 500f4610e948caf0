using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Primitives;
using Tightcold.App.Units;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;
using Tightcold.Pages.Forms;

namespace Tightcold.Web.Tests;

/// <summary>What stands in the boxes of a form and what the desk is told.</summary>
public sealed class TypedTests
{
    private static readonly Schema Standing = EntryKinds.Get(EntryKinds.StandingReading);

    [Theory]
    [InlineData("68", "psig", "68 psig")]
    [InlineData("68 ± 2", "psig", "68 ± 2 psig")]
    [InlineData("4.7 bar", "psig", "4.7 bar")]
    [InlineData("", "psig", "")]
    [InlineData(" 68 ", "psig", "68 psig")]
    public void A_number_gets_the_chosen_unit_unless_the_person_typed_one(string number, string unit, string told) =>
        Assert.Equal(told, Post("low-side", number, unit)["low-side"]);

    [Theory]
    [InlineData("3", "-°C", "-3 °C")]
    [InlineData("-3", "-°C", "-3 °C")]
    [InlineData("-3", "°C", "-3 °C")]
    public void Below_zero_is_a_unit_to_choose_and_a_minus_is_never_doubled(string number, string unit, string told) =>
        Assert.Equal(told, Post("ambient-temperature", number, unit)["ambient-temperature"]);

    [Fact]
    public void Spots_that_are_ticked_together_are_one_field()
    {
        var schema = EntryKinds.Get(EntryKinds.LeakSearch);
        var posted = new Dictionary<string, string>
        {
            // As a host flattens two ticks of one name.
            [Typed.NumberName("not-reached")] = new StringValues(["condenser", "liquid line"]).ToString(),
        };
        var told = Typed.FromSent(schema, posted).Texts(schema)["not-reached"];
        Assert.Equal(["condenser", "liquid line"], FieldType.Spots.Of(told));
    }

    [Theory]
    [InlineData("68 psig", "68", "psig")]
    [InlineData("4.7 bar", "4.7", "bar gauge")]
    [InlineData("470 kPa", "470", "kPa gauge")]
    [InlineData("28 inHg", "28", "inHg vacuum")]
    [InlineData("0 psi", "0", "psig")]
    [InlineData("68 psig ± 2 psig", "68 psig ± 2 psig", null)]
    public void A_stored_reading_comes_back_as_its_number_and_the_unit_the_form_offers(
        string stored,
        string number,
        string? unit
    ) => Assert.Equal((number, unit), Typed.Split(Standing.Find("low-side")!, stored));

    [Fact]
    public void What_a_form_shows_and_is_sent_back_unchanged_means_the_same_for_every_unit_of_every_field()
    {
        foreach (var schema in EntryKinds.All.Append(Kit.Schema).Append(Container.Schema).Append(Jobs.Cars.Car.Schema))
        foreach (var field in schema.Fields)
            if (field.Type is FieldType.Quantity type)
                foreach (var unit in UnitParser.UnitsFor(type.Kind, UnitSystem.Metric))
                {
                    var (number, offered) = Typed.Split(field, $"7.5 {unit}");
                    Assert.Equal("7.5", number);
                    Assert.Equal(unit, offered);
                }
    }

    [Fact]
    public void Every_field_of_every_form_stands_in_exactly_one_place_and_none_that_is_needed_is_folded_away()
    {
        foreach (var schema in EntryKinds.All.Append(Kit.Schema).Append(Container.Schema).Append(Jobs.Cars.Car.Schema))
        {
            var groups = FormLayout.Of(schema);
            Assert.Equal(
                schema.Asked.Select(field => field.Name).Order(),
                groups.SelectMany(group => group.Fields).Select(field => field.Name).Order()
            );
            Assert.All(schema.Asked.Where(field => field.Required), field => Assert.Contains(field, groups[0].Fields));
        }
    }

    [Fact]
    public void Ghosts_of_the_kit_are_readable_as_what_they_say_in_both_unit_systems()
    {
        foreach (var system in Enum.GetValues<UnitSystem>())
        foreach (
            var (name, text) in KitGhosts.Of(new ReaderUnits(system, System.Globalization.CultureInfo.InvariantCulture))
        )
        {
            var (number, unit) = Typed.Split(Kit.Schema.Find(name)!, text);
            Assert.True(unit is not null, $"{name}: “{text}” has no unit the form offers");
            Assert.DoesNotContain(' ', number);
        }
    }

    [Fact]
    public void A_problem_is_said_beside_its_field_and_one_of_no_field_above_the_form()
    {
        var sheet = new FormSheet(Container.Schema, Typed.Nothing, UnitSystem.Metric)
        {
            Problems =
            [
                InputProblem.Of("A: gross-now", "90 g", $"nothing can weigh less than its own tare"),
                InputProblem.Of("written-at", "x", $"the clock"),
            ],
        };
        Assert.Single(sheet.ProblemsOf("gross-now"));
        Assert.Equal("written-at", Assert.Single(sheet.OtherProblems).Field);
        Assert.Equal(
            "“90 g” is not taken: nothing can weigh less than its own tare.",
            FormSheet.Sentence(sheet.Problems[0]).ToString()
        );
    }

    private static Dictionary<string, string> Post(string field, string number, string unit) =>
        Typed
            .FromSent(
                Standing,
                new Dictionary<string, string> { [Typed.NumberName(field)] = number, [Typed.UnitName(field)] = unit }
            )
            .Texts(Standing);
}
