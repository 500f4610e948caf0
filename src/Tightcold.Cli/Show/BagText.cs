using Tightcold.App.Units;
using Tightcold.Jobs.Fields;

namespace Tightcold.Cli.Show;

/// <summary>Fields as a person reads them: what was typed, and the same in the reader's units where that says
/// more.</summary>
internal static class BagText
{
    public static string Value(FieldValue value, ReaderUnits units) =>
        value switch
        {
            FieldValue.Quantity quantity => units.WithTyped(quantity),
            FieldValue.Number number => number.Value.ToString(
                "0.######",
                System.Globalization.CultureInfo.InvariantCulture
            ),
            FieldValue.Text text => text.Value,
            _ => "",
        };

    public static IEnumerable<string> Lines(Schema schema, FieldBag bag, ReaderUnits units) =>
        from field in schema.Fields
        let value = bag[field.Name]
        where value is not null
        select $"{field.Name}: {field.Reads(Value(value, units))}";

    public static string OneLine(Schema schema, FieldBag bag, ReaderUnits units) =>
        string.Join(", ", Lines(schema, bag, units));

    /// <summary>The text that typed this value, so that a correction can start from it.</summary>
    public static string Typed(FieldValue value) =>
        value switch
        {
            FieldValue.Quantity quantity => quantity.AsTyped,
            FieldValue.Number number => number.Value.ToString("R", System.Globalization.CultureInfo.InvariantCulture),
            FieldValue.Text text => text.Value,
            _ => "",
        };
}
