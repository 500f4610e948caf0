using System.Collections.Immutable;
using Tightcold.App.Expectation;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Forms;
using Tightcold.Pages.Asked;

namespace Tightcold.Pages.Shown;

/// <summary>The form of an entry with what the job knows of it: last values, what to expect, spots, cans.</summary>
internal static class EntrySheet
{
    public static FormSheet Of(Visit visit, JobRecord record, Schema schema, Typed typed)
    {
        return new(schema, typed, visit.System)
        {
            Kit = record.KitAt(visit.Reader.Now),
            Suggested = Suggestions.Of(record, schema),
            Ghosts = LastValues(record, schema, visit),
            LastSi = record.Journal.Last(schema.Name) is { } last
                ? schema.Fields.ToDictionary(
                    field => field.Name,
                    field => last.Fields[field.Name] is FieldValue.Quantity value ? (double?)value.Value.Si : null
                )
                : new Dictionary<string, double?>(),
            Expected = EntryExpectation.Of(record, schema.Name, visit.Reader.Now),
            Spots = CircuitMap.Spots(record.Car),
            Containers = [.. record.KitAt(visit.Reader.Now).Containers.Select(container => container.Name)],
        };
    }

    /// <summary>What stood in each field the last time, as typed.</summary>
    private static ImmutableDictionary<string, string> LastValues(JobRecord record, Schema schema, Visit visit)
    {
        var last = ImmutableDictionary.CreateBuilder<string, string>();
        foreach (var entry in record.Journal.OfKind(schema.Name))
        foreach (var field in schema.Fields)
            if (entry.Fields[field.Name] is { } value && field.Type is FieldType.Quantity or FieldType.Number)
                last[field.Name] = CarriedOver.Shown(field, value, entry, visit);
        return last.ToImmutable();
    }
}
