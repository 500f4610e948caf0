namespace Tightcold.Quantities;

/// <summary>Pressure above the surrounding air; negative in vacuum. <c>default</c> equals the surroundings. Only with
/// the barometric pressure of the place does it become an absolute pressure.</summary>
public readonly record struct GaugePressure : IQuantity<GaugePressure>, IComparable<GaugePressure>
{
    private GaugePressure(double si) => Pascals = si;

    public double Pascals { get; }
    public static QuantityKind Kind => QuantityKind.GaugePressure;
    public double Si => Pascals;

    public static GaugePressure FromSi(double si) => FromPascals(si);

    public static GaugePressure FromPascals(double pascals) => new(Check.Finite(pascals, nameof(pascals)));

    public int CompareTo(GaugePressure other) => Pascals.CompareTo(other.Pascals);

    public static bool operator <(GaugePressure left, GaugePressure right) => left.Pascals < right.Pascals;

    public static bool operator >(GaugePressure left, GaugePressure right) => left.Pascals > right.Pascals;

    public static bool operator <=(GaugePressure left, GaugePressure right) => left.Pascals <= right.Pascals;

    public static bool operator >=(GaugePressure left, GaugePressure right) => left.Pascals >= right.Pascals;

    /// <summary>Refuses a result below vacuum: no gauge can truly read that at this barometric pressure.</summary>
    public AbsolutePressure ToAbsolute(AbsolutePressure ambient) =>
        AbsolutePressure.FromPascals(Pascals + ambient.Pascals);
}
