namespace Tightcold.Quantities;

/// <summary>Pressure above vacuum, never negative. <c>default</c> is perfect vacuum. Ordered by size;
/// immutable.</summary>
public readonly record struct AbsolutePressure : IQuantity<AbsolutePressure>, IComparable<AbsolutePressure>
{
    private AbsolutePressure(double si) => Pascals = si;

    public double Pascals { get; }
    public static QuantityKind Kind => QuantityKind.AbsolutePressure;
    public double Si => Pascals;

    public static AbsolutePressure FromSi(double si) => FromPascals(si);

    public static AbsolutePressure FromPascals(double pascals) => new(Check.NotBelow(pascals, 0, nameof(pascals)));

    public int CompareTo(AbsolutePressure other) => Pascals.CompareTo(other.Pascals);

    public static bool operator <(AbsolutePressure left, AbsolutePressure right) => left.Pascals < right.Pascals;

    public static bool operator >(AbsolutePressure left, AbsolutePressure right) => left.Pascals > right.Pascals;

    public static bool operator <=(AbsolutePressure left, AbsolutePressure right) => left.Pascals <= right.Pascals;

    public static bool operator >=(AbsolutePressure left, AbsolutePressure right) => left.Pascals >= right.Pascals;

    /// <summary>Higher by so many pascals.</summary>
    public AbsolutePressure Plus(double pascals) => FromPascals(Pascals + pascals);

    /// <summary>What a gauge open to <paramref name="ambient"/> would read.</summary>
    public GaugePressure ToGauge(AbsolutePressure ambient) => GaugePressure.FromPascals(Pascals - ambient.Pascals);
}
