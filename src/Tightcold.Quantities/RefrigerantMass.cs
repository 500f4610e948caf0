namespace Tightcold.Quantities;

/// <summary>Mass of refrigerant, or the gross mass on a scale. Oil is counted by volume and is another type.</summary>
public readonly record struct RefrigerantMass : IQuantity<RefrigerantMass>, IComparable<RefrigerantMass>
{
    private RefrigerantMass(double si) => Kilograms = si;

    public double Kilograms { get; }
    public static QuantityKind Kind => QuantityKind.Mass;
    public double Si => Kilograms;

    public static RefrigerantMass FromSi(double si) => FromKilograms(si);

    public static RefrigerantMass FromKilograms(double kilograms) =>
        new(Check.NotBelow(kilograms, 0, nameof(kilograms)));

    public int CompareTo(RefrigerantMass other) => Kilograms.CompareTo(other.Kilograms);

    public static bool operator <(RefrigerantMass left, RefrigerantMass right) => left.Kilograms < right.Kilograms;

    public static bool operator >(RefrigerantMass left, RefrigerantMass right) => left.Kilograms > right.Kilograms;

    public static bool operator <=(RefrigerantMass left, RefrigerantMass right) => left.Kilograms <= right.Kilograms;

    public static bool operator >=(RefrigerantMass left, RefrigerantMass right) => left.Kilograms >= right.Kilograms;
}
