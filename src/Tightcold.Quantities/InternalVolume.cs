namespace Tightcold.Quantities;

/// <summary>The space that refrigerant can fill inside a system, a hose or a cylinder.</summary>
public readonly record struct InternalVolume : IQuantity<InternalVolume>, IComparable<InternalVolume>
{
    private InternalVolume(double si) => CubicMetres = si;

    public double CubicMetres { get; }
    public static QuantityKind Kind => QuantityKind.InternalVolume;
    public double Si => CubicMetres;

    public static InternalVolume FromSi(double si) => FromCubicMetres(si);

    public static InternalVolume FromCubicMetres(double cubicMetres) =>
        new(Check.NotBelow(cubicMetres, 0, nameof(cubicMetres)));

    public int CompareTo(InternalVolume other) => CubicMetres.CompareTo(other.CubicMetres);

    public static bool operator <(InternalVolume left, InternalVolume right) => left.CubicMetres < right.CubicMetres;

    public static bool operator >(InternalVolume left, InternalVolume right) => left.CubicMetres > right.CubicMetres;

    public static bool operator <=(InternalVolume left, InternalVolume right) => left.CubicMetres <= right.CubicMetres;

    public static bool operator >=(InternalVolume left, InternalVolume right) => left.CubicMetres >= right.CubicMetres;
}
