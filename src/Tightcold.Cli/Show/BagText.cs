using Tightcold.App.Units;
using Tightcold.Jobs.Fields;
using Tightcold.Tongues;

namespace Tightcold.Cli.Show;

/// <summary>Fields as a person reads them: what was typed, and the same in the reader's units where that says
/// more.</summary>
internal static class BagText
{
    public static string Value(FieldValue value, ReaderUnits units) =>
        value switch
        {
            FieldValue.Quantity quantity => units.WithTyped(quantity),
            FieldValue.Number number => number.Value.ToString("0.######", units.Culture),
            FieldValue.Text text => text.Value,
            _ => "",
        };

    public static IEnumerable<string> Lines(Schema schema, FieldBag bag, ReaderUnits units) =>
        from field in schema.Fields
        let value = bag[field.Name]
        where value is not null
        select Say.It($"{field.Name}: {field.Says(Value(value, units)).Render(units)}");

    public static string OneLine(Schema schema, FieldBag bag, ReaderUnits units) =>
        string.Join(", ", Lines(schema, bag, units));

    /// <summary>The text that typed this value, so that a correction can start from it.</summary>
    public static string Typed(FieldValue value) =>
        value switch
        {
            FieldValue.Quantity quantity => Again(quantity),
            FieldValue.Number number => number.Value.ToString("R", Say.Tongue.Culture),
            FieldValue.Text text => text.Value,
            _ => "",
        };

    /// <summary>What was typed under a language that writes decimals otherwise could be read in two ways now.</summary>
    private static string Again(FieldValue.Quantity quantity)
    {
        var culture = Say.Tongue.Culture;
        var type = new FieldType.Quantity(quantity.Value.Kind, 0, 1);
        return UnitParser.Parse(type, quantity.AsTyped, culture).Value is not null
            ? quantity.AsTyped
            : quantity.AsTyped.Replace(".", culture.NumberFormat.NumberDecimalSeparator, StringComparison.Ordinal);
    }
}
