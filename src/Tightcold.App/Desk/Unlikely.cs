using System.Collections.Immutable;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.App.Desk;

/// <summary>Values that can be true and hardly ever are: a slip of a digit, of a unit or of a sign. A screen asks once
/// whether they are meant; nothing is refused. What is usual
/// stands at the field.</summary>
public static class Unlikely
{
    /// <summary>A value that is asked about: which field, what was typed, and what is usual.</summary>
    public sealed record Doubt(FieldSpec Field, string AsTyped, Measure Low, Measure High)
    {
        public Phrase Sentence => Phrase.Of($"{Field.Label} {Phrase.Verbatim(AsTyped)}: usual is {(Low, High)}.");
    }

    public static ImmutableArray<Doubt> Of(Schema schema, FieldBag fields)
    {
        ArgumentNullException.ThrowIfNull(schema);
        ArgumentNullException.ThrowIfNull(fields);
        var doubts = ImmutableArray.CreateBuilder<Doubt>();
        foreach (var field in schema.Fields)
            if (
                fields[field.Name] is FieldValue.Quantity quantity
                && field.Usual is var (low, high)
                && (quantity.Value.Si < low || quantity.Value.Si > high)
            )
                doubts.Add(new(field, quantity.AsTyped, new(quantity.Value.Kind, low), new(quantity.Value.Kind, high)));
        return doubts.ToImmutable();
    }
}
