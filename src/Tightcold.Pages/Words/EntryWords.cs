using System.Globalization;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Words;

/// <summary>An entry in a few words.</summary>
public static class EntryWords
{
    /// <summary>Each filled field and what a person reads for it, in the order of the schema.</summary>
    public static IEnumerable<(FieldSpec Field, string Value)> Values(
        Schema schema,
        FieldBag fields,
        IMeasureFormat units
    )
    {
        foreach (var field in schema.Fields)
            // When a car was written down is for the stores, which exchange it.
            if (field.Name != FieldNames.WrittenAt && fields[field.Name] is { } value)
                yield return (field, Read(field, Value(value, units)));
    }

    /// <summary>Words that were chosen or tapped in the reader's language; what was typed as it was written. Spots of the
    /// circuit map have a name in every language, a person's own ones have none.</summary>
    public static string Read(FieldSpec field, string text)
    {
        ArgumentNullException.ThrowIfNull(field);
        return field.Type switch
        {
            FieldType.Choice => Say.It(field.Reads(text), field.Name),
            FieldType.Spot => Say.It(text, null),
            FieldType.Text when field.Suggestions.Contains(text) => Say.It(text, null),
            FieldType.Spots => string.Join(',', text.Split(',').Select(Spot)),
            _ => text,
        };
    }

    /// <summary>With the blanks round it.</summary>
    private static string Spot(string name)
    {
        var plain = name.Trim();
        return plain.Length == 0 ? name : name.Replace(plain, Say.It(plain, null), StringComparison.Ordinal);
    }

    public static string Value(FieldValue value, IMeasureFormat units) =>
        value switch
        {
            FieldValue.Quantity quantity => units.Format(quantity.Value),
            FieldValue.Number number => number.Value.ToString("0.###", Say.Tongue.Culture),
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
                        ? $"{Say.Within(pair.Field.Label)} {pair.Value}"
                        : pair.Value
                )
        );
    }
}
