namespace Tightcold.Quantities;

/// <summary>An amount of compressor oil. <c>default</c> is none.</summary>
public readonly record struct OilVolume : IQuantity<OilVolume>, IComparable<OilVolume>
{
    private OilVolume(double si) => CubicMetres = si;

    public double CubicMetres { get; }
    public static QuantityKind Kind => QuantityKind.LiquidVolume;
    public double Si => CubicMetres;

    public static OilVolume FromSi(double si) => FromCubicMetres(si);

    public static OilVolume FromCubicMetres(double cubicMetres) =>
        new(Check.NotBelow(cubicMetres, 0, nameof(cubicMetres)));

    public int CompareTo(OilVolume other) => CubicMetres.CompareTo(other.CubicMetres);

    public static bool operator <(OilVolume left, OilVolume right) => left.CubicMetres < right.CubicMetres;

    public static bool operator >(OilVolume left, OilVolume right) => left.CubicMetres > right.CubicMetres;

    public static bool operator <=(OilVolume left, OilVolume right) => left.CubicMetres <= right.CubicMetres;

    public static bool operator >=(OilVolume left, OilVolume right) => left.CubicMetres >= right.CubicMetres;
}
