using System.Globalization;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Pages.Words;

/// <summary>An entry in a few words.</summary>
public static class EntryWords
{
    /// <summary>Label and value of each filled field, in the order of the schema.</summary>
    public static IEnumerable<(FieldSpec Field, string Value)> Values(
        Schema schema,
        FieldBag fields,
        IMeasureFormat units
    )
    {
        foreach (var field in schema.Fields)
            if (fields[field.Name] is { } value)
                yield return (field, field.Reads(Value(value, units)));
    }

    public static string Value(FieldValue value, IMeasureFormat units) =>
        value switch
        {
            FieldValue.Quantity quantity => units.Format(quantity.Value),
            FieldValue.Number number => number.Value.ToString("0.###", CultureInfo.InvariantCulture),
            FieldValue.Text text => text.Value,
            _ => "",
        };

    /// <summary>Number and unit as the person typed them, or the plain value.</summary>
    public static string AsTyped(FieldValue value) =>
        value switch
        {
            FieldValue.Quantity quantity => quantity.AsTyped,
            FieldValue.Number number => number.Value.ToString("R", CultureInfo.InvariantCulture),
            FieldValue.Text text => text.Value,
            _ => "",
        };

    /// <summary>Spot and words first without their labels, then numbers with theirs.</summary>
    public static string Summary(Entry entry, IMeasureFormat units)
    {
        if (EntryKinds.Find(entry.Kind) is not { } schema)
            return "";
        return string.Join(
            " · ",
            Values(schema, entry.Fields, units)
                .Select(pair =>
                    pair.Field.Type is FieldType.Quantity or FieldType.Number
                        ? $"{pair.Field.Label.ToLowerInvariant()} {pair.Value}"
                        : pair.Value
                )
        );
    }
}
