namespace Tightcold.Quantities;

/// <summary>Relative humidity, 0 to 1. Percent exists only on screens.</summary>
public readonly record struct RelativeHumidity : IQuantity<RelativeHumidity>, IComparable<RelativeHumidity>
{
    private RelativeHumidity(double si) => Ratio = si;

    public double Ratio { get; }
    public static QuantityKind Kind => QuantityKind.RelativeHumidity;
    public double Si => Ratio;

    public static RelativeHumidity FromSi(double si) => FromRatio(si);

    public static RelativeHumidity FromRatio(double ratio) => new(Check.Between(ratio, 0, 1, nameof(ratio)));

    public int CompareTo(RelativeHumidity other) => Ratio.CompareTo(other.Ratio);

    public static bool operator <(RelativeHumidity left, RelativeHumidity right) => left.Ratio < right.Ratio;

    public static bool operator >(RelativeHumidity left, RelativeHumidity right) => left.Ratio > right.Ratio;

    public static bool operator <=(RelativeHumidity left, RelativeHumidity right) => left.Ratio <= right.Ratio;

    public static bool operator >=(RelativeHumidity left, RelativeHumidity right) => left.Ratio >= right.Ratio;
}
