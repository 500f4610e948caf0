using System.Text.Json.Nodes;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Json;
using Tightcold.Quantities;
using static Tightcold.Jobs.Tests.SomeEntries;

namespace Tightcold.Jobs.Tests.Unit;

/// <summary>A job file that is not understood is refused with the path of the field.</summary>
public sealed class JobFileRefusalTests
{
    private static JsonNode File() =>
        JsonNode.Parse(
            JobDocument.Write(
                Record(
                    JournalOf([
                        new Entry(
                            new Guid("aaaaaaaa-0000-0000-0000-000000000001"),
                            EntryKinds.StandingReading,
                            Noon,
                            Noon,
                            "Ada",
                            FieldBag
                                .Empty.With(
                                    "ambient-temperature",
                                    new FieldValue.Quantity(new Measure(QuantityKind.Temperature, 298.15), "25 °C")
                                )
                                .With(
                                    "low-side",
                                    new FieldValue.Quantity(new Measure(QuantityKind.GaugePressure, 470e3), "4.7 bar")
                                )
                        ),
                    ])
                )
            )
        )!;

    private static void RefusedAt(string path, Action<JsonNode> change)
    {
        var file = File();
        change(file);
        var (record, problems) = JobDocument.Read(file.ToJsonString());
        Assert.NotEmpty(problems);
        Assert.Contains(path, problems.Select(problem => problem.Field));
        Assert.True(record is null || problems.Count > 0);
    }

    private static JsonNode Fields(JsonNode file) => file["entries"]![0]!["fields"]!;

    [Fact]
    public void The_file_as_written_is_taken() => Assert.Empty(JobDocument.Read(File().ToJsonString()).Problems);

    [Fact]
    public void A_newer_version_is_refused_in_one_sentence()
    {
        var file = File();
        file["version"] = JobDocument.Version + 1;
        var problem = Assert.Single(JobDocument.Read(file.ToJsonString()).Problems);
        Assert.Equal("$.version", problem.Field);
        Assert.Contains("newer Tightcold", problem.Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Another_format_is_refused() => RefusedAt("$.format", file => file["format"] = "shopping-list");

    [Fact]
    public void A_missing_version_is_refused() => RefusedAt("$.version", file => file.AsObject().Remove("version"));

    [Fact]
    public void An_unknown_field_at_the_top_is_refused() => RefusedAt("$.extras", file => file["extras"] = 1);

    [Fact]
    public void An_unknown_field_of_an_entry_is_refused() =>
        RefusedAt("$.entries[0].fields.mood", file => Fields(file)["mood"] = "good");

    [Fact]
    public void An_unknown_kind_of_entry_is_refused() =>
        RefusedAt("$.entries[0].kind", file => file["entries"]![0]!["kind"] = "horoscope");

    [Fact]
    public void A_gauge_pressure_marked_as_absolute_is_refused() =>
        RefusedAt("$.entries[0].fields.low-side.unit", file => Fields(file)["low-side"]!["unit"] = "Pa absolute");

    [Fact]
    public void A_value_no_driveway_has_is_refused() =>
        RefusedAt("$.entries[0].fields.ambient-temperature", file =>
            Fields(file)["ambient-temperature"]!["value"] = 573.15
        );

    [Fact]
    public void Text_for_a_number_is_refused() =>
        RefusedAt("$.entries[0].fields.low-side.value", file => Fields(file)["low-side"]!["value"] = "much");

    [Fact]
    public void A_number_without_its_typed_text_is_refused() =>
        RefusedAt("$.entries[0].fields.low-side.typed", file => Fields(file)["low-side"]!.AsObject().Remove("typed"));

    [Fact]
    public void A_needed_field_that_is_missing_is_refused() =>
        RefusedAt("$.entries[0].fields.ambient-temperature", file =>
            Fields(file).AsObject().Remove("ambient-temperature")
        );

    [Fact]
    public void A_time_that_is_none_is_refused() =>
        RefusedAt("$.entries[0].observed-at", file => file["entries"]![0]!["observed-at"] = "yesterday");

    [Fact]
    public void An_id_that_is_none_is_refused() =>
        RefusedAt("$.entries[0].id", file => file["entries"]![0]!["id"] = "7");

    [Fact]
    public void Entries_that_are_no_list_are_refused() =>
        RefusedAt("$.entries", file => file["entries"] = new JsonObject());

    [Fact]
    public void A_job_without_its_car_is_refused() => RefusedAt("$.car", file => file.AsObject().Remove("car"));

    [Fact]
    public void A_negative_uncertainty_is_refused() =>
        RefusedAt("$.entries[0].fields.low-side", file => Fields(file)["low-side"]!["plus-minus"] = -1);

    [Fact]
    public void A_number_too_large_for_a_computer_is_refused() =>
        RefusedAt("$.entries[0].fields.low-side.value", file =>
            Fields(file)["low-side"]!["value"] = JsonNode.Parse("1e999")
        );
}
