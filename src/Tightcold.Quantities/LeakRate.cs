namespace Tightcold.Quantities;

/// <summary>Refrigerant leaving a system. A year here is 365.25 days.</summary>
public readonly record struct LeakRate : IQuantity<LeakRate>, IComparable<LeakRate>
{
    private LeakRate(double si) => KilogramsPerSecond = si;

    public double KilogramsPerSecond { get; }
    public static QuantityKind Kind => QuantityKind.LeakRate;
    public double Si => KilogramsPerSecond;

    public static LeakRate FromSi(double si) => FromKilogramsPerSecond(si);

    public static LeakRate FromKilogramsPerSecond(double kilogramsPerSecond) =>
        new(Check.NotBelow(kilogramsPerSecond, 0, nameof(kilogramsPerSecond)));

    public int CompareTo(LeakRate other) => KilogramsPerSecond.CompareTo(other.KilogramsPerSecond);

    public static bool operator <(LeakRate left, LeakRate right) => left.KilogramsPerSecond < right.KilogramsPerSecond;

    public static bool operator >(LeakRate left, LeakRate right) => left.KilogramsPerSecond > right.KilogramsPerSecond;

    public static bool operator <=(LeakRate left, LeakRate right) =>
        left.KilogramsPerSecond <= right.KilogramsPerSecond;

    public static bool operator >=(LeakRate left, LeakRate right) =>
        left.KilogramsPerSecond >= right.KilogramsPerSecond;

    public static LeakRate FromGramsPerYear(double gramsPerYear) =>
        FromKilogramsPerSecond(gramsPerYear / 1000 / SecondsPerYear);

    public double GramsPerYear => KilogramsPerSecond * 1000 * SecondsPerYear;
    private const double SecondsPerYear = 365.25 * 86400;
}
