using Microsoft.Extensions.Time.Testing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;

namespace Tightcold.App.Tests.Desk;

public sealed class JobDeskTests
{
    private readonly FakeTimeProvider clock = new(new DateTimeOffset(2031, 7, 4, 14, 0, 0, TimeSpan.Zero))
    {
        AutoAdvanceAmount = TimeSpan.FromSeconds(1),
    };
    private readonly JobDesk desk;

    public JobDeskTests() => desk = new JobDesk(new MemoryStore(), clock, new RandomIds());

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static Dictionary<string, string> Fields(params (string Name, string Text)[] fields) =>
        fields.ToDictionary(field => field.Name, field => field.Text);

    private async Task<int> OpenAsync()
    {
        var car = (await desk.AddCarAsync(Fields(("label", "blue estate"), ("refrigerant", "r134a")), Stop)).Value!;
        await desk.AddContainerAsync(
            Fields(("name", "Can A"), ("kind", "CAN"), ("refrigerant", "R134A"), ("tare", "97 g")),
            null,
            Stop
        );
        return (await desk.OpenJobAsync(car.Id, " blows warm ", Stop)).Value!.Number;
    }

    [Fact]
    public async Task No_job_is_opened_tomorrow_and_no_two_cars_have_one_name()
    {
        var car = (await desk.AddCarAsync(Fields(("label", "blue estate"), ("refrigerant", "r134a")), Stop)).Value!;
        Assert.False(
            (await desk.OpenJobAsync(car.Id, "blows warm", null, null, clock.GetUtcNow().AddDays(1), Stop)).Taken
        );
        Assert.False((await desk.AddCarAsync(Fields(("label", "Blue Estate"), ("refrigerant", "r134a")), Stop)).Taken);
    }

    [Theory]
    [InlineData(0.8, true)]
    [InlineData(12, false)]
    [InlineData(80, true)]
    public void A_slip_of_a_digit_is_asked_about_on_either_side(double bar, bool asked)
    {
        var fields = FieldBag.Empty.With(
            "high-side",
            new FieldValue.Quantity(new(Quantities.QuantityKind.GaugePressure, bar * 1e5), "as typed")
        );
        var doubts = Unlikely.Of(EntryKinds.Get(EntryKinds.RunningReading), fields);
        Assert.Equal(asked, doubts.Length == 1);
    }

    [Fact]
    public async Task A_choice_is_taken_however_it_is_spelt_and_kept_as_the_schema_spells_it()
    {
        var car = (
            await desk.AddCarAsync(
                Fields(("label", "x"), ("refrigerant", "r1234YF"), ("device", "Expansion-Valve")),
                Stop
            )
        ).Value!;
        Assert.Equal("R-1234yf", car.Refrigerant);
        Assert.Equal("expansion valve", car.Device);
    }

    [Fact]
    public async Task All_reasons_come_at_once_and_none_twice()
    {
        var outcome = await desk.AddCarAsync(
            Fields(("refrigerant", "R-12"), ("label-charge", "680"), ("wheels", "4")),
            Stop
        );
        Assert.False(outcome.Taken);
        Assert.Equal(
            ["label", "label-charge", "refrigerant", "wheels"],
            outcome.Problems.Select(problem => problem.Field).Order()
        );
        Assert.Empty(await desk.CarsAsync(Stop));
    }

    [Fact]
    public async Task An_entry_of_another_device_with_an_older_time_is_taken()
    {
        var number = await OpenAsync();
        Assert.True(
            (await desk.AddEntryAsync(number, "note", Fields(("text", "here")), null, "Ada", cancellation: Stop)).Taken
        );
        var older = clock.GetUtcNow().AddHours(-3);
        var outcome = await desk.AddWrittenAsync(
            number,
            new Entry(
                Guid.NewGuid(),
                "note",
                older,
                older,
                "Bo",
                FieldBag.Empty.With("text", new FieldValue.Text("there"))
            ),
            Stop
        );
        Assert.Empty(outcome.Problems);
        Assert.Equal(
            ["there", "here"],
            (await desk.RecordAsync(number, Stop))!.Journal.All.Select(entry => entry.Fields.Text("text"))
        );
    }

    [Fact]
    public async Task A_blank_field_is_not_filled_and_empties_one_when_changing()
    {
        var car = (
            await desk.AddCarAsync(
                Fields(("label", "x"), ("refrigerant", "R-134a"), ("label-charge", "680 g"), ("model-year", "  ")),
                Stop
            )
        ).Value!;
        Assert.Null(car.Fields.Number("model-year"));
        car = (await desk.UpdateCarAsync(car.Id, Fields(("label-charge", ""), ("model-year", "2009")), Stop)).Value!;
        Assert.Null(car.LabelCharge);
        Assert.Equal(2009, car.Fields.Number("model-year"));
        Assert.Equal("x", car.Label);
    }

    [Fact]
    public async Task Spots_and_cans_are_kept_as_the_car_and_the_kit_spell_them()
    {
        var job = await OpenAsync();
        var check = await desk.AddEntryAsync(
            job,
            EntryKinds.LeakCheck,
            Fields(("spot", "CONDENSER"), ("test", "soap-bubbles"), ("outcome", "nothing")),
            null,
            "Ada",
            cancellation: Stop
        );
        Assert.Equal("condenser", check.Value!.Fields.Text("spot"));
        var scale = await desk.AddEntryAsync(
            job,
            EntryKinds.ScaleReading,
            Fields(("container", "can a"), ("gross", "300 g")),
            null,
            "Ada",
            cancellation: Stop
        );
        Assert.Equal("Can A", scale.Value!.Fields.Text("container"));
    }

    [Fact]
    public async Task A_kit_keeps_its_versions_and_the_new_one_starts_later()
    {
        await OpenAsync();
        var first = await desk.KitAsync(Stop);
        var second = (await desk.UpdateKitAsync(Fields(("altitude", "1600 m")), null, Stop)).Value!;
        Assert.True(second.From > first.From);
        Assert.NotEqual(first.Id, second.Id);
        Assert.Single(second.Containers);
        // It was refused here that a version starts before the first: a job of an earlier day needs the kit of that day.
        // What holds now stays as it is, and no version starts at a moment that has not come.
        var third = (await desk.UpdateKitAsync(Fields(("owner", "Ada")), first.From.AddDays(-1), Stop)).Value!;
        Assert.Equal("Ada", (await desk.KitAsync(first.From.AddHours(-1), Stop)).Fields.Text("owner"));
        Assert.Equal(second.Id, (await desk.KitAsync(Stop)).Id);
        Assert.True(third.From < first.From);
        Assert.False((await desk.UpdateKitAsync(Fields(("owner", "Eve")), second.From.AddDays(1), Stop)).Taken);
    }

    [Fact]
    public async Task A_can_of_the_same_name_takes_the_place_of_the_old_one()
    {
        await OpenAsync();
        var kit = (
            await desk.AddContainerAsync(
                Fields(("name", "CAN A"), ("kind", "can"), ("refrigerant", "R-134a"), ("tare", "98 g")),
                null,
                Stop
            )
        ).Value!;
        Assert.Equal(0.098, Assert.Single(kit.Containers).Tare!.Value.Kilograms, 9);
    }

    [Fact]
    public async Task The_altitude_of_the_place_bounds_the_vacuum_and_a_barometer_read_there_goes_first()
    {
        var job = await OpenAsync();
        Dictionary<string, string> vacuum = Fields(("dial", "27 inHg"), ("pump-valve", "open"));
        Assert.True(
            (await desk.AddEntryAsync(job, EntryKinds.VacuumReading, vacuum, null, "Ada", cancellation: Stop)).Taken
        );
        await desk.UpdateKitAsync(Fields(("altitude", "1600 m")), null, Stop);
        Assert.Equal(
            "dial",
            Assert
                .Single(
                    (
                        await desk.AddEntryAsync(job, EntryKinds.VacuumReading, vacuum, null, "Ada", cancellation: Stop)
                    ).Problems
                )
                .Field
        );
        await desk.AddEntryAsync(
            job,
            EntryKinds.Weather,
            Fields(("ambient-temperature", "25 C"), ("station-pressure", "1010 hPa")),
            null,
            "Ada",
            cancellation: Stop
        );
        Assert.True(
            (await desk.AddEntryAsync(job, EntryKinds.VacuumReading, vacuum, null, "Ada", cancellation: Stop)).Taken
        );
    }

    [Fact]
    public async Task A_list_of_jobs_says_what_each_waits_for()
    {
        var job = await OpenAsync();
        await desk.AddEntryAsync(
            job,
            EntryKinds.JobState,
            Fields(("state", "waiting"), ("waiting-for", "condenser")),
            null,
            "Ada",
            cancellation: Stop
        );
        var line = Assert.Single(await desk.JobsAsync(Stop));
        Assert.Equal(
            ("blue estate", "blows warm", "waiting", "condenser"),
            (line.CarLabel, line.Complaint, line.State, line.WaitingFor)
        );
        Assert.NotNull(line.LastEntryAt);
    }

    [Fact]
    public async Task An_entry_whose_typed_text_and_value_disagree_is_refused()
    {
        var job = await OpenAsync();
        var entry = (
            await desk.AddEntryAsync(
                job,
                EntryKinds.ScaleReading,
                Fields(("container", "Can A"), ("gross", "300 g")),
                null,
                "Ada",
                cancellation: Stop
            )
        ).Value!;
        var changed = entry with
        {
            Id = Guid.NewGuid(),
            Fields = entry.Fields.With(
                "gross",
                new FieldValue.Quantity(new(Quantities.QuantityKind.Mass, 0.4), "300 g")
            ),
        };
        Assert.Contains(
            "say different things",
            Assert.Single((await desk.AddWrittenAsync(job, changed, Stop)).Problems).Sentence.ToString(),
            StringComparison.Ordinal
        );
    }

    /// <summary>A file somebody changed by hand: each change is one a form refuses.</summary>
    [Theory]
    [InlineData("pressure-test", "gas", "dry nitrogen", "oxygen", "oil explodes with oxygen")]
    [InlineData("pressure-test", "gas", "dry nitrogen", "compressed air", "only dry nitrogen")]
    [InlineData("container-moved", "side", "low side", "high side", "never opened to the high side")]
    [InlineData("container-moved", "container", "Can A", "Can Z", "the kit holds Can A")]
    public async Task An_entry_that_a_form_refuses_does_not_come_in_by_a_file_either(
        string kind,
        string field,
        string allowed,
        string changed,
        string because
    )
    {
        var job = await OpenAsync();
        var fields =
            kind == EntryKinds.PressureTest
                ? Fields(("gas", "dry nitrogen"), ("pressure", "150 psig"), ("gas-temperature", "25 C"))
                : Fields(("container", "Can A"), ("action", "opened"), ("side", "low side"));
        var entry = await desk.AddEntryAsync(job, kind, fields, null, "Ada", cancellation: Stop);
        Assert.True(entry.Taken, string.Join(' ', entry.Problems.Select(problem => problem.Sentence)));
        var text = JobDesk.Export((await desk.RecordAsync(job, Stop))!);

        var store = new MemoryStore();
        var elsewhere = new JobDesk(store, clock, new RandomIds());
        var refused = await elsewhere.ImportAsync(
            text.Replace($"\"{field}\": \"{allowed}\"", $"\"{field}\": \"{changed}\"", StringComparison.Ordinal),
            Stop
        );
        var sentence = Assert.Single(refused.Problems).Sentence.ToString();
        Assert.Contains(because, sentence, StringComparison.Ordinal);
        Assert.Contains(entry.Value!.Id.ToString(), sentence, StringComparison.Ordinal);
        Assert.Contains($": {field}: “{changed}”", sentence, StringComparison.Ordinal);
        Assert.Empty(await elsewhere.JobsAsync(Stop));
        Assert.True((await elsewhere.ImportAsync(text, Stop)).Taken);
    }

    [Fact]
    public async Task What_is_here_already_comes_in_again_whatever_the_kit_has_become()
    {
        var job = await OpenAsync();
        await desk.AddEntryAsync(
            job,
            EntryKinds.ScaleReading,
            Fields(("container", "Can A"), ("gross", "300 g")),
            null,
            "Ada",
            cancellation: Stop
        );
        var text = JobDesk.Export((await desk.RecordAsync(job, Stop))!);
        Assert.True((await desk.ImportAsync(text, Stop)).Taken);
    }

    [Fact]
    public async Task A_complaint_of_nothing_or_a_car_that_is_not_there_opens_no_job()
    {
        await OpenAsync();
        var car = Assert.Single(await desk.CarsAsync(Stop));
        Assert.False((await desk.OpenJobAsync(car.Id, "  ", Stop)).Taken);
        Assert.False((await desk.OpenJobAsync(Guid.NewGuid(), "blows warm", Stop)).Taken);
        Assert.Single(await desk.JobsAsync(Stop));
    }
}
