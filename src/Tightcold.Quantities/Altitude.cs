namespace Tightcold.Quantities;

/// <summary>Height above sea level, -500 to 9000 m: where a person can drive a car.</summary>
public readonly record struct Altitude : IQuantity<Altitude>, IComparable<Altitude>
{
    private Altitude(double si) => Metres = si;

    public double Metres { get; }
    public static QuantityKind Kind => QuantityKind.Altitude;
    public double Si => Metres;

    public static Altitude FromSi(double si) => FromMetres(si);

    public static Altitude FromMetres(double metres) => new(Check.Between(metres, -500, 9000, nameof(metres)));

    public int CompareTo(Altitude other) => Metres.CompareTo(other.Metres);

    public static bool operator <(Altitude left, Altitude right) => left.Metres < right.Metres;

    public static bool operator >(Altitude left, Altitude right) => left.Metres > right.Metres;

    public static bool operator <=(Altitude left, Altitude right) => left.Metres <= right.Metres;

    public static bool operator >=(Altitude left, Altitude right) => left.Metres >= right.Metres;
}
