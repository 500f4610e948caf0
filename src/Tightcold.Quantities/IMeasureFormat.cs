namespace Tightcold.Quantities;

/// <summary>How a reader sees a measure: which unit, how many digits. Carried out at the edges.</summary>
public interface IMeasureFormat
{
    string Format(Measure value);

    /// <summary>A range of one kind, with the unit once.</summary>
    string Format(Measure low, Measure high);
}
