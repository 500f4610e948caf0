using Tightcold.Quantities;

namespace Tightcold.Jobs.Fields;

/// <summary>What stands in a field. Quantities are kept in SI and as the person typed them.</summary>
public abstract record FieldValue
{
    private FieldValue() { }

    /// <param name="Value">In SI.</param>
    /// <param name="AsTyped">Number and unit as typed, e.g. <c>68 psig</c>.</param>
    /// <param name="PlusMinusSi">The reading's own uncertainty if the person gave one; otherwise the kit's
    /// holds.</param>
    public sealed record Quantity(Measure Value, string AsTyped, double? PlusMinusSi = null) : FieldValue;

    public sealed record Number(double Value) : FieldValue;

    /// <summary>A choice, free text, or the name of a spot or container.</summary>
    public sealed record Text(string Value) : FieldValue;
}
