namespace Tightcold.Quantities;

/// <summary>A temperature on the absolute scale. <c>default</c> is absolute zero, which no reading is.</summary>
public readonly record struct Temperature : IQuantity<Temperature>, IComparable<Temperature>
{
    private Temperature(double si) => Kelvins = si;

    public double Kelvins { get; }
    public static QuantityKind Kind => QuantityKind.Temperature;
    public double Si => Kelvins;

    public static Temperature FromSi(double si) => FromKelvins(si);

    public static Temperature FromKelvins(double kelvins) => new(Check.NotBelow(kelvins, 0, nameof(kelvins)));

    public int CompareTo(Temperature other) => Kelvins.CompareTo(other.Kelvins);

    public static bool operator <(Temperature left, Temperature right) => left.Kelvins < right.Kelvins;

    public static bool operator >(Temperature left, Temperature right) => left.Kelvins > right.Kelvins;

    public static bool operator <=(Temperature left, Temperature right) => left.Kelvins <= right.Kelvins;

    public static bool operator >=(Temperature left, Temperature right) => left.Kelvins >= right.Kelvins;

    public static Temperature FromCelsius(double celsius) => FromKelvins(celsius + 273.15);

    public double Celsius => Kelvins - 273.15;

    public static TemperatureDifference operator -(Temperature left, Temperature right) =>
        TemperatureDifference.FromKelvins(left.Kelvins - right.Kelvins);

    public TemperatureDifference Subtract(Temperature other) => this - other;
}
