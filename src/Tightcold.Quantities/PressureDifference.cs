namespace Tightcold.Quantities;

/// <summary>A difference or an uncertainty of pressures. <c>default</c> is none.</summary>
public readonly record struct PressureDifference : IQuantity<PressureDifference>, IComparable<PressureDifference>
{
    private PressureDifference(double si) => Pascals = si;

    public double Pascals { get; }
    public static QuantityKind Kind => QuantityKind.PressureDifference;
    public double Si => Pascals;

    public static PressureDifference FromSi(double si) => FromPascals(si);

    public static PressureDifference FromPascals(double pascals) => new(Check.Finite(pascals, nameof(pascals)));

    public int CompareTo(PressureDifference other) => Pascals.CompareTo(other.Pascals);

    public static bool operator <(PressureDifference left, PressureDifference right) => left.Pascals < right.Pascals;

    public static bool operator >(PressureDifference left, PressureDifference right) => left.Pascals > right.Pascals;

    public static bool operator <=(PressureDifference left, PressureDifference right) => left.Pascals <= right.Pascals;

    public static bool operator >=(PressureDifference left, PressureDifference right) => left.Pascals >= right.Pascals;
}
