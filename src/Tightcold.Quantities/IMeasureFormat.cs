namespace Tightcold.Quantities;

/// <summary>How a reader sees a measure: which unit, how many digits, in which language. Carried out at the
/// edges.</summary>
public interface IMeasureFormat
{
    /// <summary>The language of the reader.</summary>
    ITongue Tongue => MotherTongue.Instance;

    string Format(Measure value);

    /// <summary>A range of one kind, with the unit once.</summary>
    string Format(Measure low, Measure high);

    /// <summary>A value and its range, where the reader's units allow in one and the same unit.</summary>
    (string Value, string Range) Format(Measure value, Measure low, Measure high) => (Format(value), Format(low, high));
}
