namespace Tightcold.Quantities;

/// <summary>A difference of temperatures: superheat, subcooling, an uncertainty. One kelvin of difference is 1.8 °F of
/// difference.</summary>
public readonly record struct TemperatureDifference
    : IQuantity<TemperatureDifference>,
        IComparable<TemperatureDifference>
{
    private TemperatureDifference(double si) => Kelvins = si;

    public double Kelvins { get; }
    public static QuantityKind Kind => QuantityKind.TemperatureDifference;
    public double Si => Kelvins;

    public static TemperatureDifference FromSi(double si) => FromKelvins(si);

    public static TemperatureDifference FromKelvins(double kelvins) => new(Check.Finite(kelvins, nameof(kelvins)));

    public int CompareTo(TemperatureDifference other) => Kelvins.CompareTo(other.Kelvins);

    public static bool operator <(TemperatureDifference left, TemperatureDifference right) =>
        left.Kelvins < right.Kelvins;

    public static bool operator >(TemperatureDifference left, TemperatureDifference right) =>
        left.Kelvins > right.Kelvins;

    public static bool operator <=(TemperatureDifference left, TemperatureDifference right) =>
        left.Kelvins <= right.Kelvins;

    public static bool operator >=(TemperatureDifference left, TemperatureDifference right) =>
        left.Kelvins >= right.Kelvins;
}
