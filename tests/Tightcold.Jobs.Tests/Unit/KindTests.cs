using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;

namespace Tightcold.Jobs.Tests.Unit;

/// <summary>A kind of entry is whole in one file.</summary>
public sealed class KindTests
{
    [Fact]
    public void Every_kind_can_be_reached_at_a_step_or_beside_all_of_them()
    {
        foreach (var kind in EntryKinds.Kinds.Where(kind => kind.Name != EntryKinds.Struck))
            Assert.True(!kind.Steps.IsEmpty || kind.Anywhere is not null, $"nobody is ever offered {kind.Name}");
        Assert.All(Enum.GetValues<Step>(), step => Assert.NotEmpty(EntryKinds.At(step)));
    }

    [Fact]
    public void The_kinds_stand_in_the_order_of_the_job()
    {
        var steps = EntryKinds.Kinds.Where(kind => !kind.Steps.IsEmpty).Select(kind => kind.Steps[0].Step).ToArray();
        Assert.Equal(steps.Order(), steps);
        Assert.Equal(
            [EntryKinds.ScaleReading, EntryKinds.ContainerMoved, EntryKinds.Purge],
            EntryKinds.At(Step.WeighIn).AsEnumerable()
        );
        Assert.Equal(Step.PumpDown, EntryKinds.StepOf(EntryKinds.VacuumReading));
        Assert.Null(EntryKinds.StepOf(EntryKinds.Note));
    }

    [Theory]
    [InlineData(EntryKinds.Recovery, "Goggles")]
    [InlineData(EntryKinds.Opened, "Goggles")]
    [InlineData(EntryKinds.ContainerMoved, "low side only")]
    [InlineData(EntryKinds.PressureTest, "nothing else")]
    [InlineData(EntryKinds.RunningReading, "belt and fan")]
    [InlineData(EntryKinds.Sign, "belt and fan")]
    [InlineData(EntryKinds.Purge, "away from face")]
    public void What_can_hurt_says_so_where_the_hands_are_about_to_move(string kind, string says) =>
        Assert.Contains(says, EntryKinds.Kind(kind).Caution.ToString(), StringComparison.Ordinal);

    [Fact]
    public void What_a_reading_is_for_never_stands_in_its_form_beforehand()
    {
        string[] seenAnew =
        [
            FieldNames.LowSide,
            FieldNames.HighSide,
            FieldNames.VentTemperature,
            FieldNames.Outcome,
            FieldNames.Gross,
            FieldNames.AbsolutePressure,
            FieldNames.Dial,
            FieldNames.Pressure,
        ];
        Assert.DoesNotContain(EntryKinds.All.SelectMany(kind => kind.Fields), field =>
            field.CarriedOver && seenAnew.Contains(field.Name)
        );
    }

    [Fact]
    public void What_is_usual_lies_within_what_is_allowed()
    {
        foreach (var kind in EntryKinds.All)
        foreach (var field in kind.Fields)
            if (field.Usual is var (low, high))
            {
                var allowed = Assert.IsType<FieldType.Quantity>(field.Type);
                Assert.True(
                    low < high && low >= allowed.MinSi && high <= allowed.MaxSi,
                    $"{kind.Name} {field.Name}: {low} to {high} in {allowed.MinSi} to {allowed.MaxSi}"
                );
            }
    }

    [Fact]
    public void A_choice_is_stored_by_its_key_and_read_by_its_label()
    {
        var test = EntryKinds.Get(EntryKinds.LeakCheck).Find(FieldNames.Test)!;
        Assert.Equal("look for oil", test.Reads("oil trace"));
        Assert.Equal("soap bubbles", test.Reads("soap bubbles"));
        Assert.Equal("what nobody knows", test.Reads("what nobody knows"));
    }
}
